// Package hear makes firings of the sounds of one clip. [Hear] finds and times them, and
// keeps an [Account] of what they rest on. What it finds is a [shutter.Firing]: nothing
// that lays or judges firings imports this package.
package hear
