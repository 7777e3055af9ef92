// Package report is the record of one sitting with a shutter: the versioned document
// (schema "earshot/1"), and what follows from it by itself.
//
// [New] makes the document from a judge.Check and the facts of the sitting, [Read]
// reads back what was written. Sub-packages write it, draw it and set it as a page;
// words that they share are in package words. The document is all that they know: what
// is not in it can't be shown.
//
// Times are in s, levels in dBFS, deviations in stops (+ is slow, more light); the
// unit is in each key. Times are rounded to 0.1 µs and stops to 0.00001, far below
// what sound can tell, so that the same clip gives the same bytes on every machine.
package report
