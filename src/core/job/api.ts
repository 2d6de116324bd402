/**
 * The one schema of what travels between the bench page and its local server. Both sides import it: the server checks
 * what comes in, the page what comes back.
 *
 * Times are ISO 8601 in UTC (`2026-03-04T09:30:00.000Z`). Every body is JSON. An answer that is not 2xx is an
 * `ApiError`: one sentence a person can read, and a code a program can.
 *
 * Changes go by leaf path (`leafPaths.ts`) and are answered with what changed, not with the whole job.
 *
 *   GET    /api/health                              → Health         without the key
 *   POST   /api/enter                Enter          → 204            the key once, for a browser; a program sends it as `Authorization: Bearer`
 *   GET    /api/last                                → Last           the job and station open when the page was left
 *   PUT    /api/last                 LastChange     → LastChange
 *   GET    /api/jobs[?deck=ID&words=TEXT&before=NUMBER&limit=N&aside=left-out] → JobList  newest first
 *   DELETE /api/jobs/:id                            → JobDeleted
 *   PUT    /api/jobs/:id/set-aside   JobAsideChange → JobAside       the whole job
 *   POST   /api/jobs                 NewJob         → 201 Job
 *   GET    /api/jobs/:id                            → Job
 *   PATCH  /api/jobs/:id             HeadChange     → JobHead        409 HeadConflict
 *   PATCH  /api/jobs/:id/stations/:station StationChange → StationState  409 StationConflict
 *   POST   /api/jobs/:id/moves       Move           → MoveMade       what the move makes stale, or notes
 *   POST   /api/jobs/:id/moves/undo  Undo           → MoveMade       takes the marks of a step back
 *   POST   /api/jobs/:id/captures    NewCapture     → 201 CaptureAdded (200 when this very document is there already)
 *   GET    /api/jobs/:id/captures/:cid              → CaptureRecord
 *   PATCH  /api/jobs/:id/captures/:cid CaptureChange → CaptureAdded  what it is, or set aside
 *   POST   /api/jobs/:id/fittings    NewFitting     → 201 Fitted     begins an epoch and marks what rests on it
 *   DELETE /api/jobs/:id/fittings/:fid              → Fitted         it was not fitted after all
 *   POST   /api/jobs/:id/advice/:aid/outcome OutcomeChange → OutcomeKept
 *   POST   /api/jobs/:id/photographs NewPhotograph  → 201 PhotographsKept
 *   GET    /api/jobs/:id/photographs/:pid           → a JPEG
 *   PATCH  /api/jobs/:id/photographs/:pid PhotographChange → PhotographsKept
 *   DELETE /api/jobs/:id/photographs/:pid           → PhotographsKept
 *   GET    /api/jobs/:id/report[?for=technician]    → HTML           left out: for the customer
 *   GET    /api/letterhead                          → Letterhead     whose name and logo the reports carry
 *   PUT    /api/letterhead           Letterhead     → Letterhead
 *   GET    /api/jobs/:id/bundle[?owner=left-out]    → zip, what `platterside job export` writes (docs/bundle.md)
 *   GET    /api/jobs/:id/export[?owner=left-out]    → the same job as one JSON file
 *   POST   /api/import[?as=new]      zip or JSON    → ImportDone     here-already and here-otherwise: nothing was taken
 *   GET    /api/decks[?named=NAME&words=TEXT&after=ID&limit=N] → DeckList  by name, each with its jobs
 *   GET    /api/decks/:id/history                   → DeckHistory    its figures over its jobs
 *   GET    /api/styli[?before=NUMBER&limit=N]       → StylusLedger   styli with their hours, of the decks that were here last
 *   GET    /api/due[?after=NEXT&limit=N]            → DueList        next checks, due ones first
 *   GET    /api/jobs.csv, /api/decks/:id/history.csv, /api/styli.csv, /api/due.csv → the same as CSV
 *   GET    /api/chains[?after=NAME&limit=N]         → ChainList      what plays, by name
 *   POST   /api/chains               ChainChange    → Chain          what it is made of from a time on; a new chain where there is none of the name
 *   PUT    /api/jobs/:id/chain       JobChain       → JobChain       its recordings are readings of that chain
 *   GET    /api/chains/:id/charts[?record=KEY]      → ChainCharts    of the record file of the newest reading where left out
 *   GET    /api/chains/:id/history[?before=NEXT&limit=N] → ChainHistory  newest first
 *   GET    /api/alarms[?since=TIME]                 → AlarmList      what left its limits; since 24 hours where left out
 *   GET    /api/references                          → ReferenceList  reference recordings and their certificates
 *   PATCH  /api/references/:fingerprint ReferenceChange → NewReference  409 where it was changed elsewhere; a new one where there is none
 *   DELETE /api/references/:fingerprint             → 204            what was measured stays
 *   GET    /api/chains.csv, /api/alarms.csv, /api/references.csv, /api/chains/:id/history.csv → the same as CSV, histories whole
 *   GET    /api/batches                             → BatchStatus    how far the batches are
 *   GET    /api/changes[?job=ID[&store=1]]          → server-sent events: the job, or the store, was changed elsewhere; or both
 *   GET    /api/shop                                → Shop           what the shop has set for all its jobs
 *   PUT    /api/shop                 Shop           → Shop
 *   GET    /api/learned/:key                        → Learned        what the jobs teach of the record of that key
 *   GET    /api/parts[?kind=K]                      → PartList
 *   GET    /api/parts/:kind/:id                     → PartRecord
 *   PATCH  /api/parts/:kind/:id      PartChange     → PartRecord     409 PartConflict; a new part where there is none
 *   DELETE /api/parts/:kind/:id                     → 204            kind `record`: a record file, as its reader has it
 *   GET    /api/second-screen                       → server-sent events, each a SecondState; off soon after nobody reads them
 *   POST   /api/second-screen        SecondOn       → SecondState    on, with a new code
 *   DELETE /api/second-screen                       → 204            off
 *   POST   /api/second-screen/code                  → 204            a new code; who was let in is out
 *   PUT    /api/second-screen/figure SecondFigure   → 204            what it shows now
 *
 * A list that is asked for without `limit` has 500 rows, next checks and styli 100; `next` tells of more. The CSV of a list is whole.
 * What comes in is bounded; what goes out is not, so that nothing that is kept can make an answer unreadable.
 */
export * from './api/batches.ts';
export * from './api/bodies.ts';
export * from './api/jobDocument.ts';
export * from './api/paths.ts';
export { API_SCHEMA } from './api/primitives.ts';
export * from './api/secondScreen.ts';
