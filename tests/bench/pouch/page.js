import PouchDB from "pouchdb-browser";

globalThis.PouchDB = PouchDB;
