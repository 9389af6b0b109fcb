// Package field holds one row for each field of a job file: what it is called,
// what it holds and in which unit, what is refused, what the trade uses, what a
// job has that leaves it out, and where each of these comes from.
//
// Whatever tells about a field reads its row: checking (Check), usual values
// (Fill), reading and printing in a form (Row.Parse, Row.Text), naming a field to
// people (Words), the reference of the job file (Reference) and its JSON Schema
// (Schema).
//
// A path is that of the job file, "spec.place.bolts.spacing"; in a row, "[]"
// stands for each element of a list. The rows stand in a file for each concept.
package field
