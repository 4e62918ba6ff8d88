/** Where the pencil's worker is. Where the modules are packed, it is a packed file as well. */
export const PENCIL_WORKER = "/static/js/ink/pencil-worker.js";
