package cuesheet

import (
	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

// Schema names the layout of the JSON document. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-cues/1"

// Document is the sheet for programs, in real seconds.
type Document struct {
	Schema   string    `json:"schema"`
	Title    string    `json:"title"`
	Plan     string    `json:"plan"` // hash of the motion
	Round    exact.Rat `json:"round_seconds"`
	Rounds   int64     `json:"rounds"`
	CountIn  int64     `json:"count_in_beats"` // of a second, before it moves
	RunUp    exact.Rat `json:"run_up_seconds"` // from then to frame 0
	Lasts    exact.Rat `json:"takes_seconds"`  // from the first beat of the count-in to rest
	Cues     []Cue     `json:"cues"`           // in the order of the shot
	Calls    []Call    `json:"calls"`          // each "now", in order of time
	Cautions []string  `json:"cautions"`
}

// Cue is one thing that a hand does. Times are from frame 0 of its round.
type Cue struct {
	Name  string    `json:"name"`
	Hand  string    `json:"hand"`
	In    string    `json:"in"`             // which rounds, in words
	Seen  string    `json:"seen"`           // when, in words
	Frame exact.Rat `json:"timeline_frame"` // whole or not
	Lands exact.Rat `json:"seen_seconds"`
	Moves exact.Rat `json:"moves_seconds"` // the hand
	Told  exact.Rat `json:"told_seconds"`
	First exact.Rat `json:"count_from_seconds"`
	Beats int64     `json:"beats"` // that are counted before it
	Beat  exact.Rat `json:"beat_seconds"`
	Why   []string  `json:"because"`
}

// Call is a moment at which a hand is told to move, or, without a cue, at which the rig
// does. Times are from the first beat of the count-in.
type Call struct {
	At    exact.Rat `json:"seconds"`
	Cue   string    `json:"cue"`
	Hand  string    `json:"hand"`
	Round int64     `json:"round"` // from 1; 0 for the rig
}

// syncMark is the cue of a sync mark, which has no hand.
const syncMark = "sync mark"

// Facts tells it to programs: a Document.
func (d Data) Facts() any {
	t := d.Take
	p := t.Plan
	out := Document{
		Schema: Schema, Title: p.Title, Plan: p.Hash(), Round: p.Round(), Rounds: t.Rounds, CountIn: t.CountIn,
		RunUp: t.Begins().Neg(), Lasts: t.Lasts(), Calls: []Call{}, Cautions: report.List(t.Cautions(t.Rounds)),
		Cues: report.Each(t.Cues, func(c cue.Cue) Cue {
			return Cue{c.Name, c.Hand, c.InRounds(), t.Seen(c), c.Screen, c.Lands, c.Moves(), c.Now(), c.First(), int64(c.Beats), c.Beat, report.List(c.Because())}
		}),
	}
	for b := range t.Beats() {
		switch {
		case b.Left > 0:
		case b.Cue == cue.CountIn:
			out.Calls = append(out.Calls, Call{At: b.At})
		case b.Cue == cue.SyncTone:
			out.Calls = append(out.Calls, Call{At: b.At, Cue: syncMark})
		default:
			c := t.Cues[b.Cue]
			out.Calls = append(out.Calls, Call{b.At, c.Name, c.Hand, b.Round + 1})
		}
	}
	return out
}
