package shutter

import (
	"fmt"
	"strings"
)

// conclude gives each speed its verdict, and then the shutter.
func (j *judging) conclude() {
	c := &j.check
	c.Speeds = make([]Speed, len(j.trials))
	for i, t := range j.trials {
		t.speed.Verdict, t.speed.Why = j.judgement(t)
		t.speed.Next = j.next(t)
		c.Speeds[i] = t.speed
		c.Verdict = worst(c.Verdict, t.speed.Verdict)
	}
	if len(c.Symptoms) > 0 {
		c.Verdict = ServiceAdvised
	}
	partly := c.partly()
	c.Partly = partly != ""
	c.Why = c.reasons(partly)
	c.Next = c.advice(partly)
}

// partly says what a check of the whole dial lacks; empty where it lacks nothing
// or nothing was judged at all.
func (c *Check) partly() string {
	var judged int
	for _, s := range c.Speeds {
		if s.Verdict != NotJudged {
			judged++
		}
	}
	switch {
	case c.Verdict == NotJudged:
		return ""
	case judged < fullSpeeds:
		return fmt.Sprintf("partly checked: %s judged, and four make a check", speedsCount(judged))
	case c.Speeds[0].Verdict == NotJudged:
		return fmt.Sprintf("partly checked: the slowest speed, %s, was not judged", c.Speeds[0].Mark.Label)
	}
	return ""
}

// reasons says why the shutter has its verdict, a sentence each: the symptoms of
// the whole, the speeds that decide it, and those that could not be judged.
func (c *Check) reasons(partly string) []string {
	why := []string{}
	for _, s := range c.Symptoms {
		why = append(why, s.Why)
	}
	for _, s := range c.Speeds {
		if s.Verdict == c.Verdict && s.Verdict != Good && s.Verdict != NotJudged {
			why = append(why, s.Mark.Label+": "+s.Why)
		}
	}
	if c.Verdict == Good {
		why = append(why, "every speed judged is near its mark and repeats: "+strings.Join(c.labels(Good), ", "))
	}
	for _, s := range c.Speeds {
		if s.Verdict == NotJudged {
			why = append(why, s.Mark.Label+" is not judged: "+s.Why)
		}
	}
	switch {
	case len(c.Firings) == 0:
		why = append(why, "no firing was heard")
	case len(why) == 0:
		why = append(why, "no firing could be placed at a speed")
	}
	if partly != "" {
		why = append(why, partly)
	}
	return why
}

// labels returns the marks of the speeds with the verdict, in dial order.
func (c *Check) labels(v Verdict) []string {
	var labels []string
	for _, s := range c.Speeds {
		if s.Verdict == v {
			labels = append(labels, s.Mark.Label)
		}
	}
	return labels
}

// advice says what would settle or improve the shutter's verdict: first that of
// the slowest speed that has any, since the slow speeds go first, then what the
// whole lacks.
func (c *Check) advice(partly string) string {
	var parts []string
	assumed := false
	for _, s := range c.Speeds {
		assumed = assumed || s.Assumed
	}
	if assumed {
		parts = append(parts, tellSettings)
	}
	for _, s := range c.Speeds {
		if s.Next != "" && !s.Assumed {
			parts = append(parts, s.Next)
			break
		}
	}
	switch {
	case len(c.Firings) == 0:
		parts = append(parts, "record each slow speed fired three to five times, with the phone 10 to 30 cm away")
	case len(parts) > 0:
	case len(c.Speeds) == 0:
		parts = append(parts, "tell the settings of the dial with --speeds, in the order fired")
	case partly != "":
		parts = append(parts, "record at least four speeds, the slowest among them, each fired three times or more")
	}
	return strings.Join(parts, "; ")
}
