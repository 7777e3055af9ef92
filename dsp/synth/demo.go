package synth

import "fmt"

// Lens is one lens of the demo's drawer.
type Lens struct {
	File      string // name of its clip
	Sitting   string // what tells two sittings with one lens apart; empty where there is one
	Name      string
	Serial    string
	Note      string // what the shop would write on its tag
	Speeds    string // the settings in the order fired, as a person would note them
	Rested    string // how long it had not been fired, "90d"; empty where unknown
	Ails      []Symptom
	Spoilt    bool // recorded so badly that its firings can't all be told
	Recording Recording
}

// Demo is a drawer of lenses of an invented shop, by invented makers, one of them a second
// time after service. Equal seeds give equal drawers.
func Demo(seed uint64) []Lens {
	lenses := []Lens{
		healthyLens(), slowLens(), gummedLens(), erraticLens(),
		earlyLens(), hangingLens(), noisyLens(), steadyLens(),
		reflexLens(), farLens(), phoneLens(), servicedLens(), hesitatingLens(),
	}
	for i := range lenses {
		l := &lenses[i]
		l.Recording.Seed = seed*1000 + uint64(i)
		l.Recording.Phone.Bits = 16
		l.Recording.Take.Pause = [2]float64{0.35, 0.9}
		l.Speeds = Notation(l.Recording.Take.Settings)
		l.Serial = fmt.Sprintf("%07d", 1000000+newDice(seed, 100+uint64(i)).IntN(8999999))
		if l.Name == lenses[1].Name {
			l.Serial = lenses[1].Serial
		}
		for _, f := range l.Recording.Take.Shutter.Faults {
			l.Ails = append(l.Ails, f.Symptom)
		}
	}
	return lenses
}

// demoShutter draws a shutter that keeps its marks, with a quiet single stroke.
func demoShutter(seed uint64, kind Kind, faults ...Fault) *Shutter {
	s := Draw(seed, kind)
	s.Soft, s.Lever, s.Winding, s.Loud = false, false, StrokeWinding, -4
	s.BeatRate, s.BuzzLevel, s.DropOut = 90+40*float64(seed%7), -26, 1.0/10
	s.Deviation, s.Uneven, s.Scatter = 0, 0.02, 0.008
	s.Faults = faults
	return s
}

// demoTake records a shutter at a table in an ordinary room.
func demoTake(s *Shutter, settings []Setting) Recording {
	return Recording{
		Take:  Take{Shutter: s, Settings: settings},
		Room:  &Room{RT60: 0.35},
		Noise: Noise{RoomNoise, 32},
		Phone: Phone{Rate: 48000},
	}
}

// fives is the settings three firings each, with five at the fastest.
func fives(settings []Setting) []Setting {
	s := Fire(settings, 3)
	s[len(s)-1].Count = 5
	return s
}

func healthyLens() Lens {
	s := demoShutter(11, Leaf)
	return Lens{
		File: "corvane-105.wav", Name: "Corvane 105 mm f/3.5",
		Note: "serviced two years ago", Rested: "14d",
		Recording: demoTake(s, fives(Modern()[:6])),
	}
}

func slowLens() Lens {
	s := demoShutter(12, Leaf, Fault{Symptom: SlowEscapement, Grade: 0.8})
	return Lens{
		File: "ostrivel-150.wav", Name: "Ostrivel 150 mm f/5.6", Sitting: "before service",
		Note: "from an estate, dusty", Rested: "400d",
		Recording: demoTake(s, fives(Modern()[:6])),
	}
}

func gummedLens() Lens {
	s := demoShutter(13, Leaf, Fault{Symptom: NeedsExercise, Grade: 0.9})
	r := demoTake(s, Fire(Modern()[1:5], 5))
	r.Phone.Rate = 44100
	return Lens{
		File: "tamberlin-80.wav", Name: "Tamberlin 80 mm f/2.8",
		Note: "has lain in the drawer since spring", Rested: "210d",
		Recording: r,
	}
}

func erraticLens() Lens {
	s := demoShutter(14, Leaf, Fault{Symptom: Erratic, Grade: 0.35, Marks: []string{"1/4", "1/8", "1/15"}})
	return Lens{
		File: "quillard-135.wav", Name: "Quillard 135 mm f/4.7",
		Note:      "sounds different every time",
		Recording: demoTake(s, Fire(Modern()[1:6], 4)),
	}
}

func earlyLens() Lens {
	s := demoShutter(15, Leaf, Fault{Symptom: ClosesEarly, Grade: 1.8, Share: 0.3, Marks: []string{"1", "1/2"}})
	return Lens{
		File: "merrowin-210.wav", Name: "Merrowin 210 mm f/6.1",
		Note:      "cut short now and then at the slowest speeds",
		Recording: demoTake(s, fives(Modern()[:6])),
	}
}

func hangingLens() Lens {
	s := demoShutter(16, Leaf, Fault{Symptom: HangsOpen, Share: 0.3, Marks: []string{"1", "1/2"}})
	return Lens{
		File: "vastrel-90.wav", Name: "Vastrel 90 mm f/4.5",
		Note:      "stuck open once at the counter",
		Recording: demoTake(s, Fire(Modern()[:5], 3)),
	}
}

func noisyLens() Lens {
	s := demoShutter(17, Leaf)
	s.Winding, s.Loud, s.Soft = RatchetWinding, 5, true
	r := demoTake(s, Fire(Modern()[:6], 3))
	r.Room, r.Noise = &Room{RT60: 0.45, Distance: 0.3}, Noise{Pink, 22}
	r.Hum = Hum{50, -18}
	r.Take.Clock = &Clock{Every: 1, Jitter: 0.2e-3, Level: -20}
	r.Take.Distractors = []Distractor{{Kind: Speech, Level: -6, Share: 0.3}}
	return Lens{
		File: "hesperdine-127.wav", Name: "Hesperdine 127 mm f/4.7",
		Note:      "recorded in the shop, with the clock and a customer",
		Recording: r,
	}
}

func steadyLens() Lens {
	s := demoShutter(18, Leaf)
	s.Deviation = 0.41
	r := demoTake(s, fives(Modern()[:5]))
	r.Phone.Mics = []Mic{{Hiss: -72}, {Gain: -3, Delay: 0.25e-3, Hiss: -72}}
	return Lens{
		File: "lindqvar-75.wav", Name: "Lindqvar 75 mm f/3.5",
		Note:      "repeats well, a little slow throughout",
		Recording: r,
	}
}

func reflexLens() Lens {
	s := demoShutter(19, Reflex)
	return Lens{
		File: "carrowmere-80.wav", Name: "Carrowmere 80 mm f/2.8",
		Note:      "in its reflex body: blades, mirror and flaps are heard too",
		Recording: demoTake(s, Fire(Modern()[:5], 3)),
	}
}

// farLens is recorded from the other end of the shop by a phone that cuts off what is
// quiet and loses buffers.
func farLens() Lens {
	s := demoShutter(20, Leaf)
	r := demoTake(s, Fire(Modern()[:5], 3))
	r.Room, r.Noise = &Room{RT60: 0.8, Distance: 4}, Noise{RoomNoise, -8}
	r.Phone.Level = -44
	r.Phone.Losses = []Loss{{At: 6, Length: 0.08}, {At: 12, Length: 0.12}, {At: 19, Length: 0.1}}
	return Lens{
		File: "dunmorrow-100.wav", Name: "Dunmorrow 100 mm f/4", Spoilt: true,
		Note:      "recorded from the other end of the shop",
		Recording: r,
	}
}

func phoneLens() Lens {
	s := demoShutter(21, Leaf)
	return Lens{
		File: "pellworth-120.m4a", Name: "Pellworth 120 mm f/4",
		Note:      "straight from the phone",
		Recording: demoTake(s, Fire(Modern()[1:6], 3)),
	}
}

// servicedLens is the slow one, half a year later.
func servicedLens() Lens {
	l := slowLens()
	l.File, l.Sitting, l.Note, l.Rested = "ostrivel-150-after.wav", "after service", "escapement cleaned", "2d"
	l.Recording = demoTake(demoShutter(12, Leaf), fives(Modern()[:6]))
	return l
}

func hesitatingLens() Lens {
	s := demoShutter(22, Leaf, Fault{Symptom: Hesitates, Grade: 0.1, Share: 0.6, Marks: []string{"1", "1/2"}})
	return Lens{
		File: "sorrelhurst-65.wav", Name: "Sorrelhurst 65 mm f/5.6",
		Note:      "its buzz stumbles at the slowest speeds",
		Recording: demoTake(s, Fire(Modern()[:5], 3)),
	}
}
