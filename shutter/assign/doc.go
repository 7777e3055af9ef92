// Package assign lays firings against the marks of a dial: [Lay] against the settings
// told, [LayNamed] against marks in the names of clips, [LayNearest] where nothing was
// told. [Laying.Settle] gives firings the marks that a person settled. The result is a
// [Laying], in which every firing has a run or a doubt.
//
// It knows seconds and stops alone, and never how a firing was heard.
package assign
