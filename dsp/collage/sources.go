package collage

import "fmt"

// Where the packages put their files.
const (
	theme  = "/usr/share/sounds/freedesktop/stereo/"
	keys   = "/usr/share/buckle/wav/"
	sonic  = "/usr/share/sonic-pi/samples/"
	game   = "/usr/share/games/minetest/games/minetest_game/mods/"
	drums  = "/usr/share/lmms/samples/drums/"
	beats  = "/usr/share/lmms/samples/beats/"
	chips  = "/usr/share/games/pokerth/sounds/default/"
	paint  = "/usr/share/tuxpaint/sounds/"
	icons  = "/usr/share/sounds/sound-icons/"
	speech = "/usr/share/asterisk/sounds/"
	sphinx = "/usr/share/pocketsphinx/test/data/"
)

// role is what a recording serves as.
type role string

const (
	click  role = "click"  // small hard things that meet
	thump  role = "thump"  // mirrors, bumps, backs
	hiss   role = "hiss"   // steady noise
	decay  role = "decay"  // of a room
	typing role = "typing" // whole strokes of a keyboard
	step   role = "step"
	door   role = "door"
	music  role = "music"
	guitar role = "guitar"
	loop   role = "loop" // drums, looped
	tabla  role = "tabla"
	chip   role = "chip" // chips and cards of a game
	digs   role = "dig"
	snap   role = "snap" // claps and snaps of the fingers
	live   role = "live" // fire, water, a printer: noise that isn't steady
	camera role = "camera"
	writer role = "typewriter"
	bell   role = "bell"
	talk   role = "talk/"
)

// languages are those that are spoken in recordings.
func languages() []string { return []string{"en", "es", "fr", "it", "ru", "read"} }

// Packages are the Debian packages that the sounds come from.
func Packages() []string {
	return []string{
		"sound-theme-freedesktop", "bucklespring-data", "sonic-pi-samples", "minetest-data",
		"lmms-common", "pokerth-data", "tuxpaint-data", "sound-icons",
		"asterisk-core-sounds-en-wav", "asterisk-core-sounds-es-wav", "asterisk-core-sounds-fr-wav",
		"asterisk-core-sounds-it-wav", "asterisk-core-sounds-ru-wav", "pocketsphinx-testdata",
	}
}

// Files are all that a Library loads, without repeats, in the order it does.
func Files() []string {
	var all []string
	seen := map[string]bool{}
	for _, s := range sources() {
		for _, f := range s.files {
			if !seen[f] {
				seen[f] = true
				all = append(all, f)
			}
		}
	}
	return all
}

type source struct {
	role  role
	files []string
}

// under puts a folder before names and an ending behind them.
func under(folder, ending string, names ...string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = folder + n + ending
	}
	return out
}

func together(lists ...[]string) []string {
	var out []string
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// keyFiles are the keys with codes from..to; what is 0 for pressing, 1 for letting go.
func keyFiles(from, to, what int) []string {
	var out []string
	for code := from; code <= to; code++ {
		out = append(out, fmt.Sprintf("%s%02x-%d.wav", keys, code, what))
	}
	return out
}

func sources() []source {
	return append(mechanical(), surroundings()...)
}

func mechanical() []source {
	return []source{
		{click, together(
			keyFiles(0x06, 0x36, 1),
			under(keys, "-0.wav", "11", "12", "13", "15", "19", "1d", "1e", "22", "23", "24", "26", "34", "38", "39"),
			under(drums, ".ogg", "hihat_closed01", "hihat_closed04", "sidestick01", "rim01", "clav01", "clav02", "snare_short01", "wood01", "snare_rim01"),
			under(sonic, ".flac", "drum_cymbal_closed", "elec_tick", "elec_twip", "elec_wood", "tabla_te1", "tabla_te_m", "tabla_na_s", "tabla_ke1"),
			under(chips, ".wav", "check", "call", "fold"),
			under(paint, ".wav", "keyclick", "click", "line_start", "scroll"),
			under(icons, ".wav", "percussion-10", "percussion-12"),
			under(game, ".ogg", "default/sounds/default_dig_cracky.1", "default/sounds/default_dig_cracky.2", "default/sounds/default_dig_cracky.3",
				"default/sounds/default_ice_dig.3", "default/sounds/default_dig_metal"),
		)},
		{thump, together(
			under(game+"default/sounds/default_", ".ogg", "place_node_hard.1", "place_node_hard.2", "wood_footstep.1", "wood_footstep.2",
				"hard_footstep.1", "hard_footstep.3", "dig_choppy.1", "dig_choppy.2", "dug_node.1", "dig_oddly_breakable_by_hand", "metal_footstep.2"),
			under(drums, ".ogg", "kick_hiphop01", "snare_hiphop02", "snare06"),
			under(sonic, ".flac", "drum_bass_soft", "drum_tom_mid_soft", "bd_fat"),
		)},
		{typing, together(keyFiles(0x10, 0x1c, 0), keyFiles(0x10, 0x1c, 1))},
		{chip, under(chips, ".wav", "bet", "call", "check", "fold", "dealtwocards")},
		{writer, under(paint, ".wav", "keyclick", "return", "typewriterbell", "click", "line_end", "stamp")},
		{camera, under(theme, ".oga", "camera-shutter")},
		{snap, together(under(sonic, ".flac", "perc_snap", "perc_snap2"), under(drums, ".ogg", "clap01", "clap02", "clap03", "clap04"))},
	}
}

func surroundings() []source {
	list := []source{
		{hiss, together(under(sonic, ".flac", "vinyl_hiss", "loop_3d_printer"),
			under(game, ".ogg", "default/sounds/default_furnace_active", "tnt/sounds/tnt_gunpowder_burning", "fire/sounds/fire_large", "env_sounds/sounds/env_sounds_water.2"))},
		{live, together(under(sonic, ".flac", "loop_3d_printer", "vinyl_hiss"),
			under(game, ".ogg", "fire/sounds/fire_fire.1", "env_sounds/sounds/env_sounds_water.1", "env_sounds/sounds/env_sounds_lava.1", "default/sounds/default_furnace_active"))},
		{decay, together(under(drums, ".ogg", "clap01", "snare_hiphop01"), under(sonic, ".flac", "perc_snap", "drum_snare_hard", "perc_impact1"))},
		{step, under(game+"default/sounds/default_", ".ogg", "hard_footstep.1", "hard_footstep.2", "hard_footstep.3", "wood_footstep.1", "wood_footstep.2",
			"gravel_footstep.1", "gravel_footstep.2", "metal_footstep.2", "metal_footstep.3", "snow_footstep.2")},
		{door, under(game, ".ogg", "doors/sounds/doors_door_close", "doors/sounds/doors_door_open", "doors/sounds/doors_glass_door_close", "doors/sounds/doors_glass_door_open",
			"doors/sounds/doors_steel_door_close", "doors/sounds/doors_steel_door_open", "doors/sounds/doors_fencegate_close", "default/sounds/default_chest_close", "default/sounds/default_chest_open")},
		{digs, under(game+"default/sounds/default_", ".ogg", "dig_choppy.1", "dig_choppy.3", "dig_metal", "gravel_dig.1", "ice_dig.1", "ice_dig.2", "tool_breaks.1", "break_glass.1", "dug_metal.1", "place_node_metal.2")},
		{guitar, under(sonic, ".flac", "guit_e_fifths", "guit_e_slide", "guit_em9", "guit_harmonics")},
		{music, under(sonic, ".flac", "loop_garzul", "loop_mika", "loop_safari", "loop_electric", "ambi_piano", "ambi_choir", "loop_weirdo")},
		{loop, together(under(sonic, ".flac", "loop_amen_full", "loop_breakbeat", "loop_industrial", "loop_compus"), under(beats, ".ogg", "909beat01", "electro_beat01", "jungle01", "house_loop01"))},
		{tabla, under(sonic, ".flac", "loop_tabla")},
		{bell, together(under(sonic, ".flac", "perc_bell2", "elec_triangle", "perc_till"), under(icons, ".wav", "xylofon", "cembalo-2", "guitar-12"))},
	}
	return append(list, spoken()...)
}

func spoken() []source {
	names := []string{"demo-instruct", "demo-congrats", "conf-adminmenu", "vm-options"}
	return []source{
		{talk + "en", under(speech+"en_US_f_Allison/", ".wav", names...)},
		{talk + "es", under(speech+"es_MX_f_Allison/", ".wav", names...)},
		{talk + "fr", under(speech+"fr_CA_f_June/", ".wav", names...)},
		{talk + "it", under(speech+"it_IT_m_Carlo/", ".wav", names...)},
		{talk + "ru", under(speech+"ru_RU_f_IvrvoiceRU/", ".wav", names...)},
		{talk + "read", under(sphinx, ".wav", "librivox/sense_and_sensibility_01_austen_64kb-0870", "librivox/sense_and_sensibility_01_austen_64kb-0880", "cards/001", "cards/004")},
	}
}
