// Package shakereport tells what a move leaves of after-shake and what would
// leave less, as text and as JSON.
package shakereport

import "seamrail/motion/vibration/survey"

// Schema names the layout of the JSON report. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-shake/1"

// Data is what there is to tell.
type Data struct {
	Title, Rig string
	Source     string   // where the spring comes from, in words
	Keep       []string // lines for the rig file, where it does not have them
	PerUnit    float64
	survey.Survey
}

// Document is the JSON report. Lengths are mm or degrees, as Unit says; times
// real seconds.
type Document struct {
	Schema   string     `json:"schema"`
	Title    string     `json:"title"`
	Axis     string     `json:"axis"`
	Unit     string     `json:"unit"`
	Spring   Spring     `json:"spring"`
	PerUnit  float64    `json:"pixels_per_unit"` // 0 where it is not known
	Move     *Move      `json:"move"`            // null where nothing can be told
	Words    string     `json:"words"`           // why not; or what is surprising
	Laws     []Law      `json:"laws"`
	Shapers  []Shaper   `json:"shapers"`
	Clean    []Duration `json:"clean_ways"`
	Loops    []Offer    `json:"loops"`
	Dwells   []Offer    `json:"dwells"`
	Frames   []float64  `json:"frames"` // units beside the carriage
	Every    int64      `json:"frames_apart"`
	Captured int64      `json:"captured_frames"`
}

// Spring is how the axis swings; uncertainties are standard, 0 where unknown.
type Spring struct {
	Frequency     float64 `json:"frequency_hz"`
	FrequencySure float64 `json:"frequency_uncertainty_hz"`
	Damping       float64 `json:"damping"`
	DampingSure   float64 `json:"damping_uncertainty"`
	Source        string  `json:"source"`
}

// Move is what a move does.
type Move struct {
	Worst   float64 `json:"worst"`
	At      float64 `json:"worst_at_seconds"`
	Shake   float64 `json:"worst_shake"`
	Left    float64 `json:"left"`
	Acc     float64 `json:"acceleration"`
	Within  bool    `json:"within_limits"`
	Rests   []Rest  `json:"rests"`
	Settles int     `json:"settles_after_rounds"`
}

// Rest is a dwell.
type Rest struct {
	From  float64 `json:"from_seconds"`
	To    float64 `json:"to_seconds"`
	Swing float64 `json:"swing"`
	Left  float64 `json:"left"`
}

// Law is the move under another law.
type Law struct {
	Law    string   `json:"law"`
	Alone  float64  `json:"one_way_alone"`
	Left   float64  `json:"left"`
	Acc    *float64 `json:"acceleration"` // null where it has no bound
	Within bool     `json:"within_limits"`
}

// Shaper is the move shaped.
type Shaper struct {
	Shaper string   `json:"shaped"`
	Left   float64  `json:"left"`
	Off    float64  `json:"left_5_percent_off"`
	Acc    *float64 `json:"acceleration"`
	Within bool     `json:"within_limits"`
	Why    string   `json:"words,omitempty"`
}

// Duration is a clean duration of one way.
type Duration struct {
	Frames  int64   `json:"captured_frames"`
	Seconds float64 `json:"real_seconds"`
	Left    float64 `json:"left"` // units, of one way alone
}

// Offer is another loop or dwell.
type Offer struct {
	Loop  int64   `json:"timeline_frames"`
	Dwell *int64  `json:"dwell_far_frames,omitempty"`
	Left  float64 `json:"left"`
	Acc   float64 `json:"acceleration"`
}
