// Package musicreport tells which times are named by the music, and how far off them
// their whole frames are. Other reports borrow it.
package musicreport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/music"
)

// Section tells of all that the music names; of the loop too, where it has one. Where
// nothing is named by the music it says nothing.
func Section(r *report.Report, s music.Score, loop *clock.Loop) {
	if !s.Stated() {
		return
	}
	r.Named("music", "BEATS AND MARKERS")
	if s.Tempo.Sign() > 0 {
		text := fmt.Sprintf("%s; beat 1 at %s s", music.TempoText(s.Tempo), s.First.Decimal(3))
		if s.Bar > 0 {
			text += fmt.Sprintf("; %d to a bar", s.Bar)
		}
		r.Field("tempo", text)
	}
	if s.List != "" {
		r.Field("list", s.List+": "+plain.Count(len(s.Markers), "marker"))
	}
	r.Fields("", s.Told)
	if loop != nil && s.Loop.Beats.Sign() > 0 {
		r.Fields("loop", loopWords(s.Loop, *loop))
	}
	if len(s.Spots) == 0 {
		return
	}
	t := report.Table{Columns: []report.Column{{Head: "named"}, {Head: "heard at", Right: true}, {Head: "frame", Right: true}, {Head: "off", Right: true}, {Head: "of a frame", Right: true}, {Head: "for"}}}
	for _, x := range s.Spots {
		t.Rows = append(t.Rows, report.Row{Cells: []string{x.Text, x.At.Decimal(3) + " s", fmt.Sprint(x.Frame), off(x.Late()), fmt.Sprintf("%.2f", x.Frames().Float()), x.Path}})
	}
	r.Add(t, report.Note{Text: "Off is how much later its frame is than the moment: below 0 it is seen before it is heard. Each moment is counted from the first frame, so that nothing adds up."})
}

func off(late exact.Rat) string { return fmt.Sprintf("%.1f ms", 1000*late.Float()) }

// faint, s, is what off would round to nothing.
var faint = exact.New(1, 20_000)

// loopWords tells what became of a loop that is counted in beats.
func loopWords(l music.Length, loop clock.Loop) []string {
	late := loop.OnScreen().Sub(l.Seconds)
	out := []string{fmt.Sprintf("%s last %s s, %s frames; the loop has %d", l.Text, l.Seconds.Decimal(3), l.Seconds.Mul(loop.Clock.Playback).Decimal(2), loop.Screen)}
	if late.Sign() == 0 {
		return append(out, "exactly: it keeps with the music however often it goes round")
	}
	than := "longer"
	if late.Sign() < 0 {
		than = "shorter"
	}
	by := off(late.Abs())
	if late.Abs().Less(faint) {
		by = "less than 0.1 ms"
	}
	return append(out, fmt.Sprintf("each round is %s %s than the music; music that goes on drifts away from it: begin it anew with each round, or change its tempo", by, than),
		fmt.Sprintf("at %s it would be exact", music.TempoText(l.Exact(loop.Screen, loop.Clock.Playback))))
}

// Music is what times are named by, for programs.
type Music struct {
	Tempo   exact.Rat `json:"tempo"`         // beats a minute; 0 where none is stated
	First   exact.Rat `json:"first_seconds"` // of beat 1, on screen
	Bar     int64     `json:"bar_beats"`
	List    string    `json:"markers_file"`
	Markers int       `json:"markers"`
	Told    []string  `json:"told"`
	Loop    *Loop     `json:"loop,omitempty"`
	Spots   []Spot    `json:"moments"`
}

// Loop is a loop that is counted in beats.
type Loop struct {
	Text    string    `json:"text"`
	Seconds exact.Rat `json:"music_seconds"`
	Late    float64   `json:"off_seconds"` // that a round is longer
	Exact   exact.Rat `json:"exact_tempo"`
}

// Spot is a moment on its whole frame.
type Spot struct {
	For    string    `json:"for"` // the key
	Text   string    `json:"text"`
	At     exact.Rat `json:"screen_seconds"`
	Frame  int64     `json:"timeline_frame"`
	Late   float64   `json:"off_seconds"` // that the frame is later
	Frames float64   `json:"off_frames"`
}

// Of is what the music names, for programs; nil where nothing does.
func Of(s music.Score, loop *clock.Loop) *Music {
	if !s.Stated() {
		return nil
	}
	out := &Music{Tempo: s.Tempo, First: s.First, Bar: s.Bar, List: s.List, Markers: len(s.Markers), Told: report.List(s.Told)}
	if loop != nil && s.Loop.Beats.Sign() > 0 {
		out.Loop = &Loop{s.Loop.Text, s.Loop.Seconds, rounded(loop.OnScreen().Sub(s.Loop.Seconds)), s.Loop.Exact(loop.Screen, loop.Clock.Playback)}
	}
	out.Spots = report.Each(s.Spots, func(x music.Spot) Spot {
		return Spot{x.Path, x.Text, x.At, x.Frame, rounded(x.Late()), rounded(x.Frames())}
	})
	return out
}

func rounded(r exact.Rat) float64 { return report.Millionth(r.Float()) }
