package assign_test

import (
	"testing"

	"earshot/shutter/assign"
)

func TestALensIsNamedByWhatItsClipsShare(t *testing.T) {
	for name, want := range map[string]string{
		"corvane-105_1-4s.wav":   "corvane-105",
		"corvane-105_2s.wav":     "corvane-105",
		"corvane-105.wav":        "corvane-105",
		"1-4s_corvane-105.wav":   "corvane-105",
		"corvane_1-4s_after.wav": "corvane_after",
		"corvane 1s take 2.wav":  "corvane take 2",
		"1-4s.wav":               "",
		"two_1s_and_1-2s.wav":    "two_1s_and_1-2s", // two speeds: it carries none
		"box/corvane-105_1s.wav": "corvane-105",
		"recording":              "recording",
		".wav":                   ".wav",
	} {
		if got := assign.LensFromName(name); got != want {
			t.Errorf("LensFromName(%q) = %q, want %q", name, got, want)
		}
	}
}
