package motionjson

import (
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/trajectory"
)

// number is a decimal as it is written.
type number string

// MarshalJSON writes the digits as they are.
func (n number) MarshalJSON() ([]byte, error) { return []byte(n), nil }

// decimal is x with at most so many decimals, and never "-0".
func decimal(x float64, decimals int) number {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if decimals > 0 {
		s = strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return number(s)
}

// Head is the document but for its frames.
type Head struct {
	Schema  string    `json:"schema"`
	Title   string    `json:"title"`
	Rig     string    `json:"rig"`
	Plan    string    `json:"plan"`
	Checks  bool      `json:"checks"`
	Fails   []string  `json:"fails"`
	Unknown []string  `json:"unknown"`
	Clock   Clock     `json:"clock"`
	Loop    Loop      `json:"loop"`
	Axes    []Axis    `json:"axes"`
	Stands  []string  `json:"stands"`
	Picture *Picture  `json:"picture"`
	Takes   []Take    `json:"takes"`
	LeftOut []LeftOut `json:"left_out"`
}

// Clock is the rates, frames a second, and the speed of the picture over real
// speed.
type Clock struct {
	Capture  exact.Rat `json:"capture"`
	Playback exact.Rat `json:"playback"`
	Retime   exact.Rat `json:"retime"`
}

// Loop is how long the loop is. Frame CapturedFrames is frame 0 once more.
type Loop struct {
	TimelineFrames int64     `json:"timeline_frames"`
	CapturedFrames int64     `json:"captured_frames"`
	ScreenSeconds  exact.Rat `json:"screen_seconds"`
	RealSeconds    exact.Rat `json:"real_seconds"`
}

// Axis is one axis of the rig.
type Axis struct {
	Name string    `json:"name"`
	Unit string    `json:"unit"` // "mm" or "deg"
	Gain exact.Rat `json:"gain"` // that a loop leaves it further on
}

// Picture is the size of the delivered picture.
type Picture struct {
	Wide number `json:"pixels_wide"`
	High number `json:"pixels_high"`
}

// Take is a kept take, in captured frames from where it begins to move.
type Take struct {
	Take     int      `json:"take"` // 0 is the one that the plan foresees
	Notes    []string `json:"notes"`
	Rounds   int64    `json:"rounds"`
	Round    int64    `json:"round"` // from 1
	First    int64    `json:"first"`
	Last     int64    `json:"last"`
	Seam     int64    `json:"seam"`
	Before   int64    `json:"before"`
	After    int64    `json:"after"`
	Recorded int64    `json:"recorded"`
	Sync     *Sync    `json:"sync,omitempty"` // in a shot with a sync mark
}

// Sync is where a take is in its recording by its sync mark, in captured frames from the
// first of the mark or, where InFile, from the beginning of the recording.
type Sync struct {
	With    string    `json:"with"`
	Frame   exact.Rat `json:"mark_frame"`   // as planned, from frame 0 of the take
	Second  exact.Rat `json:"second_frame"` // the same of the mark after the take; 0 = none
	InFile  bool      `json:"in_recording"`
	Frame0  number    `json:"frame_0"`
	Out     number    `json:"give_or_take"`
	First   int64     `json:"first"` // frame 0 of the round that is kept
	FirstBy number    `json:"first_give_or_take"`
	Rate    number    `json:"capture"` // frames a second of the clock of the computer that drove it
	RateBy  number    `json:"capture_give_or_take"`
}

// LeftOut is a take whose frames cannot be told.
type LeftOut struct {
	Take int    `json:"take"`
	Why  string `json:"why"`
}

// Frame is one captured frame at the instant it begins.
type Frame struct {
	Frame  int64    `json:"frame"`
	Screen number   `json:"screen_s"`
	Real   number   `json:"real_s"`
	Axes   []number `json:"axes"`
	Stands []number `json:"stands"`
	Lens   *Lens    `json:"lens,omitempty"`
}

// Lens is how the lens looks: right-handed, x right of the camera, y away from it
// when its pan is 0, z up, the origin on the turntable's top.
type Lens struct {
	At      [3]number `json:"at"`
	Right   [3]number `json:"right"`
	Up      [3]number `json:"up"`
	Forward [3]number `json:"forward"`
	View    number    `json:"view"`  // degrees of the picture from foot to head
	Focus   number    `json:"focus"` // mm from the lens to what is sharp
	Product number    `json:"product"`
}

func headOf(t *trajectory.Trajectory, said header.Head, lens *matchmove.Shot, takes selects.Takes) Head {
	c, l := t.Clock(), t.Loop()
	h := Head{
		Schema: Schema, Title: said.Title, Rig: header.Clean(t.Rig().Name), Plan: said.Plan, Checks: said.Passed, Fails: said.Fails, Unknown: said.Unknown,
		Clock: Clock{c.Capture, c.Playback, c.Retime}, Loop: Loop{l.Screen, l.Captured, l.OnScreen(), l.Real()},
		Axes: []Axis{}, Stands: []string{}, Takes: []Take{}, LeftOut: []LeftOut{},
	}
	for i := range t.AxisCount() {
		h.Axes = append(h.Axes, Axis{t.Axis(i).Name, t.Axis(i).Unit(), t.Cut(i).Gain})
	}
	for i := range t.StandCount() {
		h.Stands = append(h.Stands, t.Stand(i).Name)
	}
	if lens != nil {
		h.Picture = &Picture{decimal(lens.Wide, 0), decimal(lens.High, 0)}
	}
	for _, s := range takes.Kept {
		take := takeOf(s)
		if s.Sync != nil {
			take.Sync = syncOf(takes.Mark, s)
		}
		h.Takes = append(h.Takes, take)
	}
	for _, o := range takes.LeftOut {
		h.LeftOut = append(h.LeftOut, LeftOut{o.Take, header.Clean(o.Why)})
	}
	return h
}

func takeOf(s selects.Select) Take {
	return Take{Take: s.Take, Notes: header.CleanAll(s.Notes), Rounds: s.Rounds, Round: s.Round + 1, First: s.First, Last: s.Last,
		Seam: s.Seam(), Before: s.Before, After: s.After, Recorded: s.Recorded}
}

// What frames and rates of a mark keep.
const syncDecimals, rateDecimals = 3, 5

func syncOf(m *syncmark.Mark, s selects.Select) *Sync {
	f := s.Sync
	second, _ := m.SecondFrame(s.Rounds)
	if m.After.Sign() == 0 {
		second = exact.Rat{}
	}
	return &Sync{
		With: m.Name(), Frame: m.Frame(), Second: second, InFile: f.Seen, Frame0: decimal(f.Frame, syncDecimals), Out: decimal(f.Out, syncDecimals),
		First: f.Kept, FirstBy: decimal(f.By, syncDecimals), Rate: decimal(f.Rate, rateDecimals), RateBy: decimal(f.RateOut, rateDecimals),
	}
}

func lensOf(shot matchmove.Shot, k matchmove.Key) *Lens {
	return &Lens{
		At: vector(k.Pose.At, placeDecimals), Right: vector(k.Pose.Right, vectorDecimals), Up: vector(k.Pose.Up, vectorDecimals),
		Forward: vector(k.Pose.Forward, vectorDecimals), View: decimal(shot.View(k), placeDecimals),
		Focus: decimal(k.Focus, placeDecimals), Product: decimal(k.Table, placeDecimals),
	}
}

func vector(v r3.Vec, decimals int) [3]number {
	return [3]number{decimal(v.X, decimals), decimal(v.Y, decimals), decimal(v.Z, decimals)}
}
