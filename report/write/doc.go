// Package write writes what a report holds, for people and for programs: a table of
// plain text, JSON and CSV.
//
// [Text], [JSON] and [CSV] write a record; [Comparison], [Explanation], [Sound] and
// [Clock] write what else the program answers, each with its JSON beside it. [Encode]
// is how every document in JSON is written. Text from outside is made safe for where it
// is shown.
package write
