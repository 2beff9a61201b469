package spinreport

import (
	"seamrail/motion/base/exact"
)

// Document is the JSON report. Exact numbers are strings such as "24000/1001";
// lengths are mm, angles degrees, times seconds; what is not known is null.
type Document struct {
	Schema     string           `json:"schema"`
	Title      string           `json:"title"`
	Capture    exact.Rat        `json:"capture"`
	Playback   exact.Rat        `json:"playback"`
	Retime     exact.Rat        `json:"retime"`
	Between    [2]exact.Rat     `json:"between"` // on-screen seconds
	Considered int64            `json:"considered"`
	Closing    int64            `json:"closing"`
	Loops      []Loop           `json:"loops"` // best first
	Own        *Loop            `json:"own_loop"`
	Fits       []Fit            `json:"fits"`
	Measured   []MeasuredPeriod `json:"measured"`
	Tables     []TableTurn      `json:"tables"`
	Defaults   []Default        `json:"defaults"`
}

// Loop is one loop of the search.
type Loop struct {
	Capture  exact.Rat `json:"capture"`
	Screen   int64     `json:"timeline_frames"`
	Captured int64     `json:"captured_frames"`
	Seconds  exact.Rat `json:"screen_seconds"`
	Cycle    exact.Rat `json:"cycle_frames"` // captured frames of one cycle of the carriage
	Alike    int64     `json:"alike"`        // rounds that look the same in the loop
	Closes   bool      `json:"closes"`
	Sure     bool      `json:"closes_for_sure"`
	Seams    []Seam    `json:"seams"`
}

// Seam is how a loop closes for one product.
type Seam struct {
	Stand       string    `json:"stand"`
	Speed       string    `json:"speed"`
	Direction   string    `json:"direction"`
	Period      exact.Rat `json:"period"`
	Sigma       exact.Rat `json:"period_uncertainty"`
	Symmetry    int64     `json:"symmetry"`
	Match       int64     `json:"match"`
	Turns       exact.Rat `json:"turns"`
	Error       exact.Rat `json:"error_turns"`
	Degrees     float64   `json:"error_degrees"`
	Frames      float64   `json:"error_frames"`
	Millimetres *float64  `json:"error_mm"`
	Pixels      *float64  `json:"error_pixels"`
	Spread      float64   `json:"uncertainty_degrees"`
	Bound       float64   `json:"bound_degrees"`
	Percent     float64   `json:"one_percent_faster_degrees"`
	Rounds      *int64    `json:"rounds_until_it_shows"` // null: never
	ByWatch     *int64    `json:"turns_to_time_by_stopwatch"`
	ByPicture   *int64    `json:"turns_to_time_in_the_picture"`
	Apparent    float64   `json:"apparent_degrees_a_picture"` // below 0 backwards
	Reversal    exact.Rat `json:"reversal_period"`
}

// Fit is a change that would make a loop close.
type Fit struct {
	Kind string `json:"kind"`
	Text string `json:"text"`
	Loop *Loop  `json:"loop"`
}

// MeasuredPeriod is a period worked out from readings.
type MeasuredPeriod struct {
	Stand    string    `json:"stand"`
	Speed    string    `json:"speed"`
	Period   exact.Rat `json:"period"`
	Sigma    exact.Rat `json:"uncertainty"`
	Ratio    float64   `json:"scatter"` // 0: one reading
	Readings []Reading `json:"readings"`
}

// Reading is one timing.
type Reading struct {
	Text  string    `json:"text"`
	Turns exact.Rat `json:"turns"`
	Took  exact.Rat `json:"seconds"`
	Late  float64   `json:"late"`
}

// TableTurn is a turntable that the rig commands.
type TableTurn struct {
	Name   string    `json:"name"`
	Turns  exact.Rat `json:"turns"`
	Speed  float64   `json:"degrees_a_second"`
	Steps  exact.Rat `json:"steps_a_round"`
	Part   exact.Rat `json:"part_of_a_step"`
	Rounds int64     `json:"rounds_to_whole_steps"`
	RunUp  int64     `json:"run_up_frames"`
	RunOut int64     `json:"run_out_frames"`
}

// Default is a value that was filled in.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
	Why   string `json:"why"`
}
