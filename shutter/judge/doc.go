// Package judge says how far each speed of a shutter is from its mark, with what
// uncertainty, what is wrong, and what would settle it. [Judge] makes a [Check] of firings,
// their laying and a [Policy]. [Compare] compares two sittings with one shutter.
//
// The zero [Verdict] judges nothing. No firing is dropped: what can't be counted is listed
// with its reason. No NaN or Inf leaves the package.
package judge
