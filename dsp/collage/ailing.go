package collage

import "earshot/dsp/known"

// ailing are the kinds with a fault.
func ailing() []kind {
	faulty := func(name string, shutter known.Kind, f func(*take, []shot) ([]string, bool)) kind {
		return with(name, shutter, func(s *scene) { s.fault, s.least = f, 3 })
	}
	return []kind{
		faulty("leaf closes early", known.Leaf, closesEarly),
		faulty("leaf hangs open", known.Leaf, hangsOpen),
		faulty("leaf hesitates", known.Leaf, hesitates),
		faulty("leaf needs exercise", known.Leaf, needsExercise),
		faulty("leaf is erratic", known.Leaf, erratic),
		faulty("leaf has lazy blades", known.Leaf, lazyBlades),
		faulty("leaf bounces open", known.Leaf, bouncesOpen),
		faulty("leaf has a slow escapement", known.Leaf, slowEscapement),
		faulty("leaf has uneven steps", known.Leaf, unevenSteps),
		faulty("reflex hangs open", known.Reflex, hangsOpen),
		faulty("focal-plane is erratic", known.FocalPlane, erratic),
		faulty("reflex needs exercise", known.Reflex, needsExercise),
	}
}

// phoned are the kinds that differ by what records.
func phoned() []kind {
	by := func(name string, p phone) kind {
		return with(name, known.Leaf, func(s *scene) { s.phone = p })
	}
	return []kind{
		by("phone with much AGC", phone{agc: 26}),
		by("phone suppresses noise", phone{suppress: 18}),
		by("phone with a voice gate", phone{gate: gateDown}),
		by("phone gates to zero", phone{gate: gateToZero}),
		by("phone loses buffers", phone{lost: 10}),
		by("phone clips", phone{clips: 10}),
		by("phone at 8 kHz", phone{rate: 8000}),
		by("phone at 96 kHz", phone{rate: 96000}),
		by("channels in antiphase", phone{channels: antiphase}),
		by("one channel dead", phone{channels: dead}),
		by("hum", phone{hum: 35}),
		by("recorder skips silence", phone{skips: 1, exact: true}),
		by("AAC at 24 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "aac", Suffix: ".m4a", Kbits: 24}}),
		by("Opus at 12 kbit/s", phone{rate: 48000, coding: known.Coding{Encoder: "libopus", Suffix: ".opus", Kbits: 12}}),
		by("Opus at 32 kbit/s", phone{rate: 48000, coding: known.Coding{Encoder: "libopus", Suffix: ".opus", Kbits: 32}}),
		by("MP3 at 48 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "libmp3lame", Suffix: ".mp3", Kbits: 48}}),
		by("Vorbis at 64 kbit/s", phone{rate: 44100, coding: known.Coding{Encoder: "libvorbis", Suffix: ".ogg", Kbits: 64}}),
		by("phone with everything on", phone{rate: 16000, agc: 15, suppress: 12, gate: gateDown}),
		with("reflex, Opus at 16 kbit/s", known.Reflex, func(s *scene) {
			s.phone = phone{rate: 48000, coding: known.Coding{Encoder: "libopus", Suffix: ".opus", Kbits: 16}}
		}),
		with("focal-plane, AAC at 32 kbit/s", known.FocalPlane, func(s *scene) {
			s.phone = phone{rate: 44100, coding: known.Coding{Encoder: "aac", Suffix: ".m4a", Kbits: 32}}
		}),
		with("cut at both ends", known.Leaf, func(s *scene) { s.cuts = true }),
	}
}
