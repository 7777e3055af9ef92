// Package settings reads what a person writes in TOML: a house's limits ([ReadPolicy])
// and what was seen of a lens ([ReadObserved]). A key that is not known is refused, since
// a misspelt one would be passed over in silence.
package settings
