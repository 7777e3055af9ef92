// Package drawer reads what a person wrote about many lenses (drawer.csv) and writes
// what was found: the table, the summary as CSV and JSON, and the index, a page that
// needs no server.
//
// [Read] takes a list as spreadsheets really write them and tells everything that is
// wrong in it at once; [List.Lenses] gathers its lines by lens. [Summary] holds what
// became of each lens, and every writer is a method of it. Folders, clips and how
// anything was heard are unknown here.
package drawer
