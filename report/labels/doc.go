// Package labels writes the firings of one clip as labels that a sound editor shows
// under its sound, and reads them back when a person has corrected them.
//
// A file of labels is UTF-8 text with one firing a line: its opening and its closing
// in s from the clip's start, with a decimal point, and a label, with a tab between
// them. A label that begins with a speed, written as on the dial, says what the
// firing was made at; what follows the speed is for the person. A label whose end is
// its start is a firing that never closed, and must say so. Empty lines mean nothing.
//
// [Write] writes such a file from a record, [Read] reads one.
package labels
