/** An express server that keeps PouchDB databases in memory, and a page with the browser's half. */
import express from "express";
import express_pouchdb from "express-pouchdb";
import http from "pouchdb-adapter-http";
import memory from "pouchdb-adapter-memory";
import PouchDB from "pouchdb-core";
import replication from "pouchdb-replication";

PouchDB.plugin(memory).plugin(http).plugin(replication);
const [, , port, bundle] = process.argv;
const app = express();
app.get("/page", (_, answer) =>
  answer.type("html").send('<!doctype html><script src="/bundle.js"></script>'),
);
app.get("/bundle.js", (_, answer) => answer.sendFile(bundle));
app.use(
  "/db",
  express_pouchdb(PouchDB.defaults({ adapter: "memory" }), {
    mode: "minimumForPouchDB",
    inMemoryConfig: true,
  }),
);
app.listen(Number(port), "127.0.0.1", () => console.log("open"));
