// Package judge says how far each speed of a shutter is from its mark, how sure that is,
// what is wrong, and what would settle it. [Judge] makes a [Check] of firings, their
// laying and a [Policy]. [Compare] holds two sittings with one shutter against each other.
//
// The zero [Verdict] judges nothing. No firing is dropped: what can't be counted is listed
// with its reason. No NaN or Inf leaves the package.
package judge
