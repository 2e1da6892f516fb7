/** The phone's ledger without its screens, for the page of the bench. */
import { access, open } from "../../../frontend/src/ledger/index.ts";

Object.assign(globalThis, { rounds: { access, open } });
