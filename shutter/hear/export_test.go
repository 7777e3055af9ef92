package hear

// Find is for tests that look at hearing alone, or that hear again what was listened to.
var Find = find
