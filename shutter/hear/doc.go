// Package hear makes firings of the sounds of one clip. [Clip] is the one way in: samples
// go in, and a [Heard] comes out, with the firings in time order, an [Account] of what they
// rest on, and how the clip was recorded. [Heard.Correct] puts times that a person set in
// place of those heard.
//
// What it finds is a [shutter.Firing]. Nothing that lays or judges firings imports this
// package, so that another way of hearing can take its place.
package hear
