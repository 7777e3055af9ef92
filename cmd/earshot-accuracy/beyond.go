package main

import (
	"earshot/dsp/synth"
	"earshot/shutter"
)

// demands are harder than the targets ask for.
func demands() []condition {
	fire := func(kind synth.Kind, settings []synth.Setting) func(*scene, int) {
		return func(r *scene, _ int) {
			refire(r, kind)
			r.Noise.ClickOver, r.Take.Settings = 30, synth.Fire(settings, perSetting)
		}
	}
	at := func(rate int) func(*scene, int) {
		return func(r *scene, _ int) { r.Phone.Rate, r.Noise.ClickOver = rate, 30 }
	}
	phone := func(change func(p *synth.Phone)) func(*scene, int) {
		return func(r *scene, _ int) { change(&r.Phone); r.Noise.ClickOver = 30 }
	}
	ticking := func(alike bool) func(*scene, int) {
		return func(r *scene, _ int) {
			r.Take.Clock = &synth.Clock{Every: 1, Jitter: 0.2e-3, Level: -20, Alike: alike}
		}
	}
	few := func(count int) func(*scene, int) {
		return func(r *scene, clip int) {
			r.Noise.ClickOver = 30
			r.Take.Settings = synth.Fire(synth.Modern()[clip%6:clip%6+1], count)
		}
	}
	modern, older := synth.Modern(), synth.Older()
	curtains := func(told shutter.Kind) func(*scene, int) {
		return func(r *scene, clip int) {
			fire(synth.FocalPlane, modern[:6])(r, clip)
			r.kind = told
		}
	}
	return []condition{
		{"soft openings", beyond, 6, func(r *scene, _ int) { r.Noise.ClickOver, r.Take.Shutter.Soft = 30, true }},
		{"no buzz at any speed", beyond, 6, func(r *scene, _ int) { r.Noise.ClickOver, r.Take.Shutter.BeatRate = 30, 0 }},
		{"reflex body, 1 to 1/8", beyond, 6, fire(synth.Reflex, modern[:4])},
		{"reflex body, 1/15 and 1/30", beyond, 6, fire(synth.Reflex, modern[4:6])},
		{"focal plane, told so", beyond, 6, curtains(shutter.FocalPlane)},
		{"focal plane, not told", beyond, 6, curtains(shutter.Leaf)},
		{"1/60 to 1/250", beyond, 6, fire(synth.Leaf, modern[6:9])},
		{"1 to 1/250", beyond, 6, fire(synth.Leaf, modern[:9])},
		{"4 s and 2 s", beyond, 6, fire(synth.Leaf, []synth.Setting{{Label: "4s", Nominal: 4}, {Label: "2s", Nominal: 2}})},
		{"older series, 1 to 1/25", beyond, 6, fire(synth.Leaf, older[:5])},
		{"one firing", beyond, 12, few(1)},
		{"two firings", beyond, 12, few(2)},
		{"speech between", beyond, 6, hearing(synth.Speech, -3, 0)},
		{"typing between", beyond, 6, hearing(synth.Typing, -6, 0)},
		{"claps between", beyond, 6, hearing(synth.Clap, 3, 0)},
		{"knocks between", beyond, 6, hearing(synth.Knock, 0, 0)},
		{"handling between", beyond, 6, hearing(synth.Handling, -6, 0)},
		{"clock at -20 dB", beyond, 6, ticking(false)},
		{"clock at -20 dB, ticks alike", beyond, 6, ticking(true)},
		{"self-timer", beyond, 6, func(r *scene, _ int) { r.Take.SelfTimer, r.Take.Settings = true, synth.Fire(modern[:6], 1) }},
		{"hum 10 dB over the click", beyond, 6, func(r *scene, _ int) { r.Hum = synth.Hum{Frequency: 50, Level: 10} }},
		{"gain control", beyond, 6, phone(func(p *synth.Phone) { p.Auto = &synth.Auto{Target: -9, Most: 30, Attack: 0.005, Release: 0.4} })},
		{"gain control, slow", beyond, 6, phone(func(p *synth.Phone) { p.Auto = &synth.Auto{Target: -9, Most: 30, Attack: 0.1, Release: 3} })},
		{"noise gate", beyond, 6, phone(func(p *synth.Phone) { p.Gate = &synth.Gate{Threshold: -42, Hold: 0.05} })},
		{"clipping", beyond, 6, phone(func(p *synth.Phone) { p.Level = -4 })},
		{"gaps filled with zeros", beyond, 6, phone(func(p *synth.Phone) { p.Losses = losses(false) })},
		{"gaps left out", beyond, 6, phone(func(p *synth.Phone) { p.Losses = losses(true) })},
		{"opposite phase", beyond, 6, phone(func(p *synth.Phone) { p.Mics = []synth.Mic{{}, {Invert: true}} })},
		{"one side dead", beyond, 6, phone(func(p *synth.Phone) { p.Mics = []synth.Mic{{Dead: true}, {}} })},
		{"8 kHz", beyond, 6, at(8000)},
		{"16 kHz", beyond, 6, at(16000)},
		{"96 kHz", beyond, 3, at(96000)},
		{"192 kHz", beyond, 3, at(192000)},
	}
}

// losses are 20 ms lost every 1.7 s for two minutes.
func losses(dropped bool) []synth.Loss {
	var all []synth.Loss
	for t := 1.0; t < 120; t += 1.7 {
		all = append(all, synth.Loss{At: t, Length: 0.02, Dropped: dropped})
	}
	return all
}

// alarms hold no firing and much that sounds like one.
func alarms() []condition {
	ticking := func(alike bool) func(*scene, int) {
		return func(r *scene, _ int) {
			r.Take.Clock = &synth.Clock{Every: 1, Jitter: 0.2e-3, Alike: alike}
		}
	}
	return []condition{
		{"speech alone", quiet, stillClips, hearing(synth.Speech, 0, 3)},
		{"music alone", quiet, stillClips, hearing(synth.Music, 0, 4)},
		{"typing alone", quiet, stillClips, hearing(synth.Typing, 0, 3)},
		{"claps alone", quiet, stillClips, hearing(synth.Clap, 0, 3)},
		{"clock alone, tick and tock", quiet, stillClips, ticking(false)},
		{"clock alone, ticks alike", quiet, stillClips, ticking(true)},
		{"handling alone", quiet, stillClips, hearing(synth.Handling, 0, 3)},
	}
}
