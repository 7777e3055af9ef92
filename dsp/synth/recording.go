package synth

import (
	"fmt"
	"math"
	"sort"

	"earshot/dsp"
)

// Recording is a take, recorded somewhere by something.
type Recording struct {
	Seed  uint64 // of all that happens by chance
	Take  Take
	Room  *Room // nil: none, as in the open
	Noise Noise
	Hum   Hum
	Phone Phone
}

// Clip plays the take and records it. The error says what can't be played.
func (r Recording) Clip() (*Clip, error) {
	if err := r.check(); err != nil {
		return nil, fmt.Errorf("synthesis: %w", err)
	}
	phone := r.Phone.withDefaults()
	score, length := r.Take.compose(newDice(r.Seed, 2))
	rate := float64(phone.Rate) * (1 + phone.ClockPPM*1e-6) // really, in frames a true second
	c := &Clip{
		format: dsp.Format{Rate: phone.Rate, Channels: len(phone.Mics)},
		phone:  phone,
		seed:   r.Seed,
		events: score.events,
		player: player{rate: rate, least: leastHeard},
		heard:  map[int][]grain{},
		total:  int64(math.Ceil(length * rate)),
		block:  blockFrames,
		losses: frames(phone.Losses, float64(phone.Rate)),
		states: []memory{{}},
		loaded: -1,
	}
	c.Truth = score.truth
	c.setLevels(r, medianClick(score.clicks, rate))
	c.setRoom(r)
	c.Truth.settle(timebase{c.losses, rate, float64(phone.Rate)})
	return c, nil
}

func (r Recording) check() error {
	if err := r.Take.check(); err != nil {
		return err
	}
	if err := r.Noise.check(); err != nil {
		return err
	}
	if r.Room != nil {
		if err := r.Room.check(); err != nil {
			return err
		}
	}
	return r.Phone.check()
}

// setLevels fixes the recorder's gain and the level of noise and hum by the click
// level, which is in the units of the take.
func (c *Clip) setLevels(r Recording, click float64) {
	c.gain = gain(c.phone.Level) / click
	c.Truth.Click, c.Truth.Noise = c.phone.Level, math.Inf(-1)
	if r.Noise.Colour != "" {
		c.shelves, c.noise = r.Noise.colour(c.phone.Level, c.player.rate)
		c.Truth.Noise = c.phone.Level - r.Noise.ClickOver
	}
	if r.Hum.Frequency > 0 {
		c.wave = r.Hum.wave(newDice(r.Seed, 3))
		c.hum = gain(c.phone.Level + r.Hum.Level)
	}
}

// setRoom prepares the room's echo.
func (c *Clip) setRoom(r Recording) {
	if r.Room == nil {
		return
	}
	h := r.Room.response(newDice(r.Seed, 4), c.player.rate)
	for c.block < len(h) {
		c.block *= 2
	}
	c.echo = newEcho(h, c.block)
}

// medianClick is the click level of openings and closings, 1 where there are none.
func medianClick(clicks []event, rate float64) float64 {
	clicks = clicks[:min(len(clicks), 64)]
	levels := make([]float64, len(clicks))
	for i, e := range clicks {
		levels[i] = clickLevel(e.play(newDice(e.seed, 0)), rate)
	}
	if len(levels) == 0 {
		return 1
	}
	sort.Float64s(levels)
	n := len(levels)
	return (levels[(n-1)/2] + levels[n/2]) / 2
}
