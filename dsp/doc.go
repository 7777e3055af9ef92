// Package dsp hears transients in a stream of samples.
package dsp
