package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/report/settings"
	"earshot/shutter/judge"
)

// policyFlags say what a shutter is judged by.
type policyFlags struct{ policy, clock string }

func (f *policyFlags) define(c *cobra.Command) {
	c.Flags().StringVar(&f.policy, "policy", judge.Standard().Name, "limits to judge by: standard, negative-film, or a file of your own (.toml)")
	c.Flags().StringVar(&f.clock, "clock-ppm", "", "the recorder's clock error as earshot clock finds it, as in +23.4±0.5")
}

// read returns the policy asked for.
func (f policyFlags) read() (judge.Policy, error) {
	p, err := policyOf(f.policy)
	if err != nil || f.clock == "" {
		return p, err
	}
	if p.ClockError, p.ClockPPM, err = parseClock(f.clock); err != nil {
		return p, err
	}
	return p, p.Check()
}

// policyOf returns the built-in policy of a name, or that in a file.
func policyOf(name string) (judge.Policy, error) {
	p, unknown := judge.PolicyNamed(name)
	if unknown == nil {
		return p, nil
	}
	if filepath.Ext(name) != ".toml" && !strings.ContainsRune(name, filepath.Separator) {
		return p, fmt.Errorf("--policy: %w, and a file of your own ends in .toml", unknown)
	}
	r, err := files.Open(name)
	if err != nil {
		return p, fault.Unreadable(name, "the policy cannot be read", err)
	}
	defer r.Close()
	p, err = settings.ReadPolicy(r, strings.TrimSuffix(filepath.Base(name), ".toml"))
	if err != nil {
		return p, fault.Refused("bad-policy", name, err, "see docs/judging.md for what a policy holds")
	}
	return p, nil
}

// clockError is an error in ppm, with how sure it is behind ± or +-.
var clockError = regexp.MustCompile(`^([+−-]?[0-9]+(?:\.[0-9]+)?)(?: *(?:±|\+-|\+/-) *([0-9]+(?:\.[0-9]+)?))?(?: *ppm)?$`)

// parseClock reads the error of a recorder's clock and the half-width of what is still
// not known of it, both in ppm.
func parseClock(s string) (ppm, halfWidth float64, err error) {
	part := clockError.FindStringSubmatch(strings.TrimSpace(s))
	if part == nil {
		return 0, 0, fmt.Errorf("--clock-ppm %q: write it as earshot clock prints it, as in +23.4±0.5", s)
	}
	if part[2] == "" {
		return 0, 0, fmt.Errorf("--clock-ppm %q: say how sure it is as well, as earshot clock does: +23.4±0.5", s)
	}
	if ppm, err = strconv.ParseFloat(strings.ReplaceAll(part[1], "−", "-"), 64); err != nil {
		return 0, 0, fmt.Errorf("--clock-ppm: %w", err)
	}
	halfWidth, err = strconv.ParseFloat(part[2], 64)
	return ppm, halfWidth, err
}
