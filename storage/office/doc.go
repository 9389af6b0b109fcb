// Package office brings the job books of several people together in one PostgreSQL
// database, the office book. Everyone's own book stays what he works on, and is the whole
// truth without a network: it has all that his role may see.
//
// The database decides who sees and writes what, by its roles and row-level security; the
// program is not trusted. Prices, wages, bids and accounts lie in tables of their own, of
// edits and revisions too, and are never sent to who may not see them.
//
// A job has versions. An edit goes up with the version that it was made on, and is refused
// where another came first; then the two are brought together edit by edit
// (revision.Merge), or, where both touched the same, both are kept as revisions. Nothing is
// ever overwritten. What others did comes down in the order of the database's changes.
//
// The order of things hangs on versions alone, never on clocks. A message that is sent
// again, since nobody knows whether it arrived, is taken once: its name comes from what it
// says.
//
// Errors that a person can do something about are a *storage.Fault.
package office
