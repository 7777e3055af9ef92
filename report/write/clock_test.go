package write_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/write"
)

func TestAClockIsToldInWordsAndAsCheckTakesIt(t *testing.T) {
	for name, c := range map[string]struct {
		clock report.Clock
		want  []string
	}{
		"fast, tick and tock alike": {report.Clock{File: "quartz\x1b[2J.wav", Error: 23.44, U95: 0.41, Ticks: 299, Missed: 1, Others: 1, Scatter: 0.00012},
			[]string{": 299 ticks timed, 1 missed, 1 other sound\n", "clock is 23.4 ppm fast, 95 % sure within 0.4 ppm", "scatter by 0.12 ms\n", "--clock-ppm +23.4±0.5\n"}},
		"slow, and the pendulum askew": {report.Clock{Error: -8.06, U95: 0.3, Ticks: 1, Others: 2, Scatter: 0.0001, Uneven: -0.0042},
			[]string{"1 tick timed, 0 missed, 2 other sounds\n", "8.1 ppm slow", "tick and tock lie 4.2 ms off even", "--clock-ppm -8.1±0.3\n"}},
		"right as far as it is printed": {report.Clock{Error: -0.04, U95: 1.21}, []string{"clock is right, 95 % sure within 1.2 ppm", "±1.3\n"}},
	} {
		var b bytes.Buffer
		if err := write.Clock(&b, c.clock); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: no %q in\n%s", name, want, b.String())
			}
		}
		if strings.Contains(b.String(), "\x1b") || name == "fast, tick and tock alike" && strings.Contains(b.String(), "off even") {
			t.Errorf("%s: %q", name, b.String())
		}
	}
}

func TestAClockAsJSONIsInPPMAndSeconds(t *testing.T) {
	var b bytes.Buffer
	if err := write.ClockJSON(&b, report.Clock{File: "quartz.wav", Every: 1, Error: 23.4412345, U95: 0.41, Scatter: 0.00012345678}, "v1"); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Schema string
		Clock  map[string]any
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Schema != report.Schema || got.Clock["error_ppm"] != 23.4412 || got.Clock["scatter_s"] != 0.0001235 || got.Clock["file"] != "quartz.wav" {
		t.Errorf("it says %s", b.String())
	}
}
