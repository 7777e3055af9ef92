// Package report turns a judged shutter into what people and programs read: the
// versioned document (schema "earshot/1"), its JSON, a CSV and a table of plain
// text. Sub-packages draw it.
//
// [New] makes the document from a shutter.Check and the facts of the sitting,
// [WriteJSON], [WriteCSV] and [WriteText] write it, [Read] reads it back. The
// document is all that writers and charts know: what is not in it can't be shown.
//
// Times are in s, levels in dBFS, deviations in stops (+ is slow, more light); the
// unit is in each key. Times are rounded to 0.1 µs and stops to 0.00001, far below
// what sound can tell, so that the same clip gives the same bytes on every machine.
package report
