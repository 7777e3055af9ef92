package assign

import (
	"testing"

	"earshot/shutter"
)

func TestAClipsNameCarriesItsSpeedOnlyInFull(t *testing.T) {
	for name, want := range map[string]string{
		"corvane-105_1-4s.wav":      "1/4",
		"corvane-105_2s.wav":        "2s",
		"corvane-105_0.5s.m4a":      "1/2",
		"corvane 105 1-30s (2).wav": "1/30",
		"drawer/corvane_1s":         "1",
		"corvane-2s.wav":            "2s",
		"1-25s.wav":                 "1/25",
		"corvane_1-4s_0.25s.wav":    "1/4", // the same speed twice
		`C:\drawer_2s\a_1-8s.wav`:   "1/8",

		"lens_105_f2.8.wav":      "",
		"corvane-105.wav":        "",
		"corvane_30.wav":         "",
		"corvane_1-4.wav":        "",
		"corvane-105-2s.wav":     "", // 105-2?
		"corvane-105-1-4s.wav":   "",
		"corvane_30s.wav":        "", // the length of the clip
		"corvane_1-4s_2s.wav":    "", // which?
		"drawer_2s/corvane.wav":  "",
		"corvane_f2.8s.wav":      "",
		"corvane_v1.2s.wav":      "",
		"lenses.wav":             "",
		"corvane_s.wav":          "",
		"corvane_0s.wav":         "",
		"corvane_3-4s.wav":       "",
		"corvane_1-0s.wav":       "",
		"corvane_½s.wav":         "",
		"":                       "",
		"corvane_2secs.wav":      "",
		"2024-11-25 corvane.wav": "",
	} {
		m, ok := MarkFromName(name)
		if m.Label != want || ok != (want != "") {
			t.Errorf("MarkFromName(%q) = %v, %v, want %q", name, m, ok, want)
		}
	}
}

func FuzzMarkFromName(f *testing.F) {
	for _, s := range []string{"corvane-105_1-4s.wav", "_2s", "0.5s", "a/b\\1-4s", "1-4s-2s", "\xff_1s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		m, ok := MarkFromName(name)
		if ok != (m != shutter.Mark{}) || ok && (m.Nominal <= 0 || m.Nominal > 4) {
			t.Fatalf("MarkFromName(%q) = %v, %v", name, m, ok)
		}
		if behind, ok2 := MarkFromName("any/folder_2s/" + name); ok2 != ok || behind != m {
			t.Fatalf("MarkFromName(%q) = %v, in a folder %v", name, m, behind)
		}
	})
}
