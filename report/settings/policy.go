package settings

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/BurntSushi/toml"

	"earshot/shutter/judge"
)

// ErrPolicy is for a policy file that can't be taken.
var ErrPolicy = errors.New("not a policy")

// policyFile is a policy as a house writes it down. What is not written keeps the
// value of the built-in policy it is like.
type policyFile struct {
	Name          string  `toml:"name"`
	House         string  `toml:"house"`
	Like          string  `toml:"like"`
	Good          float64 `toml:"good_stops"`
	Service       float64 `toml:"service_stops"`
	SpreadGood    float64 `toml:"spread_good_stops"`
	SpreadService float64 `toml:"spread_service_stops"`
	Clock         float64 `toml:"clock_ppm"`
	ClockError    float64 `toml:"clock_error_ppm"`
	Edge          float64 `toml:"edge_ms"`
}

// ReadPolicy reads a house's limits from TOML; name is what the policy is called where
// it does not say. A key that is not known is refused with its line, since a misspelt
// limit would be passed over in silence. Errors wrap [ErrPolicyFile] or the reader's own.
func ReadPolicy(r io.Reader, name string) (judge.Policy, error) {
	text, err := readTOML(r)
	switch {
	case errors.Is(err, ErrTOML):
		return judge.Policy{}, fmt.Errorf("%w: %w", ErrPolicy, err)
	case err != nil:
		return judge.Policy{}, err
	}
	var like struct {
		Like string `toml:"like"`
	}
	if _, err := toml.Decode(text, &like); err != nil {
		return judge.Policy{}, policyFault(err)
	}
	base := judge.Standard()
	if like.Like != "" {
		if base, err = judge.PolicyNamed(like.Like); err != nil {
			return judge.Policy{}, fmt.Errorf("%w: line %d: like: %w", ErrPolicy, lineOf(text, "like"), err)
		}
	}
	f := policyFile{name, "", "", base.Good, base.Service, base.SpreadGood, base.SpreadService, base.ClockPPM, base.ClockError, base.EdgeMS}
	meta, err := toml.Decode(text, &f)
	if err != nil {
		return judge.Policy{}, policyFault(err)
	}
	if unknown := meta.Undecoded(); len(unknown) > 0 {
		key := unknown[0].String()
		return judge.Policy{}, fmt.Errorf("%w: line %d: no limit is called %q; known are name, house, like, good_stops, service_stops, spread_good_stops, spread_service_stops, clock_ppm, clock_error_ppm, edge_ms", ErrPolicy, lineOf(text, unknown[0][0]), key)
	}
	p := judge.Policy{Name: f.Name, House: f.House, Good: f.Good, Service: f.Service, SpreadGood: f.SpreadGood, SpreadService: f.SpreadService,
		ClockPPM: f.Clock, ClockError: f.ClockError, EdgeMS: f.Edge}
	if err := p.Check(); err != nil {
		return judge.Policy{}, fmt.Errorf("%w: %w", ErrPolicy, err)
	}
	return p, nil
}

func policyFault(err error) error {
	var at toml.ParseError
	if errors.As(err, &at) {
		return fmt.Errorf("%w: line %d: %s", ErrPolicy, at.Position.Line, at.Message)
	}
	return fmt.Errorf("%w: %s", ErrPolicy, strings.TrimPrefix(err.Error(), "toml: "))
}

// lineOf is the first line that begins with a key, or with a table of that name.
func lineOf(text, key string) int {
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimLeft(line, " \t[\"'")
		if rest, ok := strings.CutPrefix(line, key); ok && (rest == "" || strings.ContainsRune(" \t=.\"']\r", rune(rest[0]))) {
			return i + 1
		}
	}
	return 1
}
