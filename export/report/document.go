package report

import (
	"seamrail/export/picturewords"
	"seamrail/motion/base/exact"
)

// Document is the JSON report. Exact numbers are strings such as "24000/1001";
// lengths are mm, angles degrees, times seconds. A number that has no bound,
// such as the jerk of a move whose acceleration jumps, is null.
type Document struct {
	Schema     string                 `json:"schema"`
	Title      string                 `json:"title"`
	Plan       string                 `json:"plan"` // hash of the motion
	Rig        string                 `json:"rig"`
	Verdict    Verdict                `json:"verdict"`
	Clock      Clock                  `json:"clock"`
	Loop       Loop                   `json:"loop"`
	Take       Take                   `json:"take"`
	Axes       []Axis                 `json:"axes"`
	Motors     []Motor                `json:"motors,omitempty"`
	Controller *Controller            `json:"controller,omitempty"`
	Others     []picturewords.Check   `json:"other_checks"` // that are none of the picture's
	Picture    *picturewords.Document `json:"picture,omitempty"`
	Shakes     []Shake                `json:"after_shake,omitempty"`
	Stands     []Stand                `json:"stands"`
	Closing    *Closing               `json:"closing_loops,omitempty"`
	Findings   []Finding              `json:"findings"`
	Defaults   []Default              `json:"defaults"`
	Cautions   []string               `json:"cautions"`
}

// Verdict tells whether the plan may run.
type Verdict struct {
	Ready    bool     `json:"ready"` // nothing keeps the rig from being driven
	Stamp    string   `json:"stamp"` // "READY", "READY, BUT" or "NOT READY"
	Words    string   `json:"words"`
	Fails    []string `json:"fails"`   // checks that fail, the picture's too
	Unknown  []string `json:"unknown"` // checks that could not be made
	Breaches []Breach `json:"breaches"`
	Fits     []string `json:"fits"` // what would fit instead
}

// Breach is one limit that is broken.
type Breach struct {
	Axis     string   `json:"axis"`
	Quantity string   `json:"quantity"`
	Phase    string   `json:"phase"` // "loop", "run-up" or "run-out"
	Value    *float64 `json:"value"`
	Bound    float64  `json:"bound"`
	Unit     string   `json:"unit"`
	When     When     `json:"when"`
}

// When is an instant of the loop.
type When struct {
	Real   float64 `json:"real_seconds"`
	Screen float64 `json:"screen_seconds"`
	Frame  float64 `json:"captured_frame"`
}

// Clock holds the rates, exact.
type Clock struct {
	Capture  exact.Rat `json:"capture"`
	Playback exact.Rat `json:"playback"`
	Retime   exact.Rat `json:"retime"`
	Cadence  string    `json:"cadence"`
	Even     bool      `json:"even"`
}

// Loop holds what was asked and what it became.
type Loop struct {
	Asked    string    `json:"asked"`
	Rounded  bool      `json:"rounded"`
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Real     exact.Rat `json:"real_seconds"`
}

// Take holds what is recorded and what of it is delivered, in captured frames
// counted from the first recorded one.
type Take struct {
	Rounds   int    `json:"rounds"`
	RunUp    int64  `json:"run_up_frames"`
	RunOut   int64  `json:"run_out_frames"`
	Recorded int64  `json:"recorded_frames"`
	First    int64  `json:"deliver_first"`
	Last     int64  `json:"deliver_last"`
	Handles  int64  `json:"handle_frames"`
	Start    string `json:"timecode_first"`
	End      string `json:"timecode_last"`

	Cut *TakeCut `json:"cut,omitempty"` // of a loop that is cut back to its first frame
}

// Finding is one check and what it found.
type Finding struct {
	Axis  string `json:"axis,omitempty"`
	Check string `json:"check"`
	OK    bool   `json:"ok"`
	Text  string `json:"text"`
}

// Default is a value that was filled in.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Why   string `json:"why"`
}
