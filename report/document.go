package report

import (
	"time"

	"earshot/shutter/judge"
)

// Schema is the version of the document. Names of fields don't change within it;
// new ones may be added.
const Schema = "earshot/1"

// Document is the record of one sitting with one shutter. Lists are in time order
// and never null.
type Document struct {
	Schema     string        `json:"schema"`
	Tool       Tool          `json:"tool"`
	Made       time.Time     `json:"made"`
	Lens       Lens          `json:"lens"`
	Told       string        `json:"told"` // the dial settings told, in the order fired; empty where none were
	Policy     Policy        `json:"policy"`
	Clips      []Clip        `json:"clips"`
	Firings    []Firing      `json:"firings"`
	Speeds     []Speed       `json:"speeds"` // slowest first
	Line       *Line         `json:"line"`   // nil where the speeds are too few for one
	Symptoms   []Symptom     `json:"symptoms"`
	Verdict    judge.Verdict `json:"verdict"`
	Partly     bool          `json:"partly_checked"` // fewer than four speeds, or not the slowest, were judged, or firings or the want of them left one open
	Why        []string      `json:"why"`
	Next       string        `json:"next"`
	Rest       *AfterRest    `json:"after_rest"`  // nil where no rest was told
	Observed   []Observation `json:"observed"`    // what a person saw, and sound can't tell
	ObservedBy string        `json:"observed_by"` // who; empty where not told
	Warnings   []string      `json:"warnings"`    // missed or extra firings, counts that disagree, unknown marks, speeds from names
}

// Observation is what a person saw of a lens, in words of their own.
type Observation struct {
	What string `json:"what"` // fast speeds, flash contact, glass, cosmetics
	Seen string `json:"seen"`
}

// Tool is the program that made the document.
type Tool struct {
	Version string `json:"version"`
}

// Lens is what the person said of the lens; empty or nil where nothing was said.
type Lens struct {
	Name        string   `json:"name"`
	Serial      string   `json:"serial"`
	Note        string   `json:"note"`
	Rested      string   `json:"rested"` // how long unused before the sitting, as told
	Temperature *float64 `json:"temperature_c"`
	Shutter     string   `json:"shutter"` // "leaf" or "focal-plane"
}

// Policy holds the limits that were in force.
type Policy struct {
	Name          string  `json:"name"`
	Good          float64 `json:"good_stops"`
	Service       float64 `json:"service_stops"`
	SpreadGood    float64 `json:"spread_good_stops"`    // at three firings
	SpreadService float64 `json:"spread_service_stops"` // at three firings
	Clock         float64 `json:"clock_ppm"`            // half-width of what is not known of the recorder's clock
	ClockError    float64 `json:"clock_error_ppm"`      // what is known of it, + is fast: taken out of the deviations, not out of the firings' times
	Edge          float64 `json:"edge_s"`
	House         string  `json:"house"` // whose limits they are; empty where not told
}

// Clip is a sound recording as it was read.
type Clip struct {
	File     string    `json:"file"` // name without its folder
	SHA256   string    `json:"sha256"`
	Format   string    `json:"format"`
	Rate     int       `json:"sample_rate_hz"`
	Channels int       `json:"channels"`
	Channel  int       `json:"channel_used"` // the first is 0
	Duration float64   `json:"duration_s"`
	Sound    Sound     `json:"sound"`
	ByHand   *ByHand   `json:"by_hand"` // nil where every time is as heard
	Warnings []Warning `json:"warnings"`
}

// Warning is doubt about a clip. Codes are stable.
type Warning struct {
	Code    string `json:"code"`
	Message string `json:"message"`
}

// Firing is one actuation. If it never closed, Close and what follows from it are nil. If it
// has no place at a speed, Marked, Nominal and Deviation are nil.
type Firing struct {
	Clip      int      `json:"clip"`
	Open      float64  `json:"open_s"`
	Close     *float64 `json:"close_s"`
	Duration  *float64 `json:"duration_s"`
	U         *float64 `json:"u_s"`        // standard uncertainty of the duration from its two onsets
	Common    *float64 `json:"u_common_s"` // the part of it that is one error, the same in all firings of the clip
	Edge      string   `json:"edge"`
	Buzz      Buzz     `json:"buzz"`
	Opening   *Blades  `json:"opening"`  // nil where it was not measured
	Closing   *Blades  `json:"closing"`  // likewise
	Bounce    *float64 `json:"bounce_s"` // after the closing, at which the blades bounced open again; nil where they did not
	Marked    *string  `json:"marked"`
	Nominal   *float64 `json:"nominal_s"`
	Assumed   bool     `json:"assumed"`
	Deviation *float64 `json:"deviation_stops"`
	Judged    bool     `json:"judged"` // counted in its speed's figures
	Reason    string   `json:"reason"` // why not, where not
	Symptoms  []string `json:"symptoms"`
}

// Buzz is what was heard of the slow-speed escapement; Rate and Level are nil where
// they could not be measured.
type Buzz struct {
	Heard bool     `json:"heard"`
	Rate  *float64 `json:"rate_hz"`
	Level *float64 `json:"level_db"` // against the weaker of opening and closing

	// Early and Late are the rate where the buzz is first and last heard; nil where it
	// is too short to tell.
	Early   *float64 `json:"rate_early_hz"`
	Late    *float64 `json:"rate_late_hz"`
	Falters []Falter `json:"falters"`
}

// Speed is one marked speed, with the figures over its N counted firings. Figures are nil if
// there are no firings. If a mean would mislead, Mean, Deviation and U95 are nil too, and
// Median is shown instead.
type Speed struct {
	Marked    string        `json:"marked"`
	Nominal   float64       `json:"nominal_s"`
	Assumed   bool          `json:"assumed"`
	Firings   []int         `json:"firings"` // indices into Document.Firings
	N         int           `json:"n"`
	Mean      *float64      `json:"mean_s"`
	First     *float64      `json:"first_s"`
	Deviation *float64      `json:"deviation_stops"`
	Median    *float64      `json:"median_stops"`
	SD        *float64      `json:"sd_stops"`
	Spread    *float64      `json:"spread_stops"`
	Scatter   *float64      `json:"scatter_stops"` // standard deviation behind the budget's repeatability, perhaps pooled over speeds
	DF        int           `json:"scatter_df"`    // its degrees of freedom; 0 where it is not known
	U95       *float64      `json:"u95_stops"`
	Budget    *Budget       `json:"budget"`
	Residual  *Residual     `json:"residual"` // off the line of the other speeds; nil where these are too few
	Symptoms  []Symptom     `json:"symptoms"`
	Verdict   judge.Verdict `json:"verdict"`
	Why       string        `json:"why"`
	Next      string        `json:"next"`
}

// Budget holds the terms of U95, each its own 95 % half-width in stops.
type Budget struct {
	Repeatability float64 `json:"repeatability"`
	Onset         float64 `json:"onset"`
	Clock         float64 `json:"clock"`
	Edge          float64 `json:"edge"`
}

// Symptom is a named fault with the firings it rests on.
type Symptom struct {
	Name    string `json:"name"`
	Firings []int  `json:"firings"` // indices into Document.Firings
	Why     string `json:"why"`
	Cause   string `json:"cause"` // what usually causes it (common practice, no source)
}

// Failure is why there is no document.
type Failure struct {
	Code    string `json:"code"`    // stable, for programs
	File    string `json:"file"`    // empty where no file is to blame
	Message string `json:"message"` // what is wrong
	Hint    string `json:"hint"`    // what to do
}
