package takelog

import (
	"maps"
	"slices"
	"time"
)

// Schema names the layout of the JSON document. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-takes/1"

// Document is the list of takes for programs; times are real seconds.
type Document struct {
	Schema  string `json:"schema"`
	Log     string `json:"log"`     // the name of its file
	There   bool   `json:"there"`   // whether there is one
	Takes   []Fact `json:"takes"`   // in the order they began
	Virtual []Fact `json:"virtual"` // those on a rig made of software: nothing was filmed
	Torn    int    `json:"torn_lines"`
	Known   bool   `json:"position_known"` // where the rig stands, after the last line
}

// Fact is one take.
type Fact struct {
	Take    int        `json:"take"`
	Keep    bool       `json:"keep"`
	Why     string     `json:"rejected"`        // why it is of no use; "" where it is not rejected
	Clip    string     `json:"clip"`            // the camera's file name, or card and clip number; "" where nobody has said
	Driver  string     `json:"driver"`          // who drove
	Group   string     `json:"group"`           // of takes that must match; "" for none
	Pass    string     `json:"pass"`            // what of the group it is
	ByHand  bool       `json:"by_hand"`         // seamrail did not drive it
	Began   time.Time  `json:"began"`           // or was logged, of one by hand
	Plan    string     `json:"plan"`            // hash of the motion
	Asked   int64      `json:"rounds_asked"`    // 0: until stopped
	Rounds  *int64     `json:"rounds"`          // null where the log breaks off in it
	Planned float64    `json:"planned_seconds"` // of the rounds that were run, where that is known
	Took    float64    `json:"took_seconds"`    // 0 where that was not measured
	OutBy   float64    `json:"out_by_seconds"`  // how far that may be out either way
	Worst   []Worst    `json:"worst"`           // deviation of each axis
	Held    bool       `json:"held"`            // stopped and resumed
	Outcome string     `json:"outcome"`
	Detail  string     `json:"detail"`
	Hands   []HandFact `json:"hands"` // that were seen late or early
	Notes   []string   `json:"notes"`
	Sync    *SyncFact  `json:"sync,omitempty"` // of a take with a sync mark
	Film    *Film      `json:"film,omitempty"` // of a take whose film was looked through, and kept
	Stills  *StillFact `json:"frame_by_frame,omitempty"`
}

// StillFact is how far a take frame by frame has come.
type StillFact struct {
	From   int64  `json:"from_frame"` // that it began with: those before are of an earlier take
	Frames int64  `json:"frames"`     // exposed, those before among them
	Of     *int64 `json:"of_frames"`  // null in logs that do not say
}

// stillsOf tells how far it has come, nil of a take that the camera ran through.
func stillsOf(t Take) *StillFact {
	if !t.FrameByFrame() {
		return nil
	}
	out := &StillFact{From: t.Begin.Frames, Frames: t.Frames}
	if t.Begin.Of > 0 {
		out.Of = &t.Begin.Of
	}
	return out
}

// SyncFact is what is known of the sync marks of a take. Seconds are from its frame 0.
type SyncFact struct {
	Mark      string  `json:"mark"` // what made them
	First     float64 `json:"first_seconds"`
	Out       float64 `json:"first_out_by_seconds"`
	Second    float64 `json:"second_seconds"` // 0: there was none
	SecondOut float64 `json:"second_out_by_seconds"`
	Seen      *int64  `json:"seen_frame"` // of the recording; null: nobody has looked
	Last      *int64  `json:"seen_last_frame"`
}

// syncOf tells what is known of sync marks, nil where nothing is.
func syncOf(s Sync) *SyncFact {
	if s.Mark == "" {
		return nil
	}
	out := &SyncFact{Mark: s.Mark, First: s.First, Out: s.Out, Second: s.Second, SecondOut: s.SecondOut}
	if s.Saw {
		out.Seen = &s.Frame
		if s.Last > 0 {
			out.Last = &s.Last
		}
	}
	return out
}

// HandFact is how late a hand was.
type HandFact struct {
	Hand string  `json:"hand"` // "" for the only one
	Late float64 `json:"late_seconds"`
}

// FactOf is a take for programs.
func FactOf(t Take) Fact {
	out := Fact{
		Take: t.Number, Keep: t.Keep, Why: t.Why, Clip: t.Clip, Driver: t.Begin.Driver, Group: t.Begin.Group, Pass: t.Begin.Pass, ByHand: t.Begin.ByHand, Began: t.Begin.Time, Plan: t.Begin.Plan, Asked: t.Begin.Rounds, Planned: t.Planned(),
		Took: t.End.Executed, OutBy: t.End.Uncertainty, Worst: append([]Worst{}, t.End.Worst...), Held: t.End.Held, Outcome: t.End.Outcome,
		Detail: t.End.Detail, Hands: []HandFact{}, Sync: syncOf(t.Sync), Film: t.Film, Stills: stillsOf(t), Notes: append([]string{}, t.Notes...),
	}
	if !t.Cut {
		out.Rounds = &t.End.Rounds
	}
	for _, hand := range slices.Sorted(maps.Keys(t.Late)) {
		out.Hands = append(out.Hands, HandFact{hand, t.Late[hand]})
	}
	return out
}

// Planned is the planned motion in s: that of the rounds that were run, where
// that is known.
func (t Take) Planned() float64 {
	if t.End.Planned > 0 {
		return t.End.Planned
	}
	return t.Begin.Planned
}
