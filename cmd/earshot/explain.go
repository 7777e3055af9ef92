package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/sitting"
	"earshot/report"
	"earshot/report/chart/heard"
	"earshot/report/write"
	"earshot/shutter"
)

// explained is what --explain asks about: a firing by its number, from 1, or a time in s.
type explained struct {
	firing int // 0 where a time was asked about
	at     float64
}

// parseExplained reads "3" or "12.5s".
func parseExplained(s string) (*explained, error) {
	if t, ok := strings.CutSuffix(s, "s"); ok {
		at, err := strconv.ParseFloat(t, 64)
		if err == nil && at >= 0 && at < math.MaxInt32 {
			return &explained{at: at}, nil
		}
	} else if n, err := strconv.Atoi(s); err == nil && n > 0 && regexp.MustCompile(`^[0-9]+$`).MatchString(s) {
		return &explained{firing: n}, nil
	}
	return nil, fmt.Errorf("--explain %q: name a firing by its number, as in 3, or a time of the clip, as in 12.5s", s)
}

// checkExplain looks at what is to be explained before any work is done.
func (o *checkOptions) checkExplain(what string) (err error) {
	if what == "" {
		return errors.New("--explain: name a firing by its number, as in 3, or a time of the clip, as in 12.5s")
	}
	if o.explain, err = parseExplained(what); err != nil {
		return err
	}
	switch {
	case o.csv:
		return errors.New("--explain prints words, or JSON, in place of the table: leave out --csv")
	case o.useLabels != "":
		return errors.New("--explain tells why firings were heard, and --use-labels sets them by hand: leave out one")
	case o.explain.firing == 0 && len(o.Clips) > 1:
		return errors.New("--explain with a time speaks of one clip: name that clip alone")
	}
	return nil
}

// answer prints the table and draws the firings. If --explain was given, it does both for that
// alone.
func (a app) answer(ctx context.Context, o checkOptions, all []sitting.Heard, d report.Document) error {
	if o.explain != nil {
		return a.tell(ctx, o, all, d)
	}
	if o.firings != "" {
		if err := a.drawFirings(ctx, o, sitting.PathsOf(all), d); err != nil {
			return err
		}
	}
	return o.print(a.stdout, d)
}

// tell prints why there is a firing or none, and draws it where --firings was given.
func (a app) tell(ctx context.Context, o checkOptions, all []sitting.Heard, d report.Document) error {
	x, err := o.explanation(all, d)
	if err != nil {
		return err
	}
	if o.firings != "" {
		again := sitting.HearAgain(ctx, d, sitting.PathsOf(all), a.stderr)
		defer again.Close()
		v, err := heard.NewEvidence(d, x, again.Look)
		if err != nil {
			return err
		}
		b, err := v.Draw(o.firingsFormat)
		if err != nil {
			return err
		}
		if err := o.writePicture(ctx, o.firings, b); err != nil {
			return err
		}
	}
	if o.json {
		return write.ExplanationJSON(a.stdout, x, version)
	}
	return write.Explanation(a.stdout, x)
}

// explanation explains what was asked about.
func (o checkOptions) explanation(all []sitting.Heard, d report.Document) (report.Explanation, error) {
	if n := o.explain.firing - 1; n >= 0 {
		e, err := explainFiring(all, n)
		if err != nil {
			return report.Explanation{}, err
		}
		return report.ExplainFiring(d, n, e), nil
	}
	if c := d.Clips[0]; o.explain.at > c.Duration {
		return report.Explanation{}, fault.New(report.Failure{Code: "no-such-time", File: c.File, Message: fmt.Sprintf("the clip ends at %.1f s", c.Duration), Hint: "name a time within it"}, errNoFiring)
	}
	return report.ExplainTime(d, 0, all[0].Account.Near(o.explain.at)), nil
}

// explainFiring explains the n-th firing of all clips, the first being 0.
func explainFiring(all []sitting.Heard, n int) (shutter.Explanation, error) {
	inClip := n
	for _, h := range all {
		if inClip < len(h.Firings) {
			h.Account.Before = n - inClip
			return h.Account.Firing(inClip), nil
		}
		inClip -= len(h.Firings)
	}
	return shutter.Explanation{}, fault.New(report.Failure{Code: "no-such-firing", Message: fmt.Sprintf("there is no firing %d: %d were heard", n+1, n-inClip),
		Hint: "--explain 12.5s tells why none was heard at a time"}, errNoFiring)
}

var errNoFiring = errors.New("no such firing")
