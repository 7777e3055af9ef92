// Package heard draws sound: every firing of a record ([NewFirings]), some of them side by
// side for a page ([DrawStrip]), why there is a firing or none ([NewEvidence]), and the
// spectrum of a clip ([WriteSpectrum]).
//
// What a picture shows is worked out first, apart from paper: strips of panels, all of a
// strip to one scale of time and of loudness. Sound is asked for by a [Look], in the
// places that are drawn and in no others.
package heard
