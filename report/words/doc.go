// Package words holds the words that all writers of a report share: sizes in stops,
// times, marks, dates, counts and lists, and what makes text from a file safe to show.
//
// [Stops], [Mark] and [Milliseconds] say what is measured, [Plural] and [Firings] count,
// [Printable], [Visible] and [Cell] make text safe for a terminal, a page and a
// spreadsheet. Records are unknown here.
package words
