// Package heard draws sound: every firing of a record ([NewFirings]), some of them side by
// side for a page ([DrawStrip]), why there is a firing or none ([NewEvidence]), and the
// spectrum of a clip ([WriteSpectrum]).
//
// What a picture shows is computed first, without drawing: strips of panels. All panels of a
// strip have one scale of time and of loudness. A [Look] reads the sound, only at the places
// that are drawn.
package heard
