// Package sequencereport tells how shots join into a clip, in which order to
// film them and what that takes.
package sequencereport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/export/report/musicreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/judge"
)

// Data is what a report tells.
type Data struct {
	Clip     *sequence.Clip
	Defaults []source.Default // of the sequence file
	Troubles []Trouble
	Heads    []Head
	// Proposals are where its cuts would carry the motion better, and Timeline is how it
	// is handed on, from which takes; nil where that was not looked at.
	Proposals []sequence.Proposal
	Timeline  *timeline.Timeline
}

// Head is the headline of a shot's own plan.
type Head struct {
	File     string
	Headline judge.Headline
}

// Trouble is what a shot's own plan breaks.
type Trouble struct {
	File string `json:"file"`
	Text string `json:"text"`
}

// page is a report being made.
type page struct {
	report.Report
	d Data
	c *sequence.Clip
}

// begin begins both the short report and the whole one.
func (d Data) begin() *page {
	p := &page{d: d, c: d.Clip}
	p.Title, p.Subtitle = p.c.Title, plain.Count(len(p.c.Pieces), "shot")+" joined into a clip"
	return p
}

// Report tells it to people.
func (d Data) Report() report.Report {
	p := d.begin()
	p.Section("THE CLIP")
	p.length()
	p.Section("EACH SHOT BY ITSELF")
	for _, x := range d.Heads {
		p.head(x)
	}
	p.pieces()
	musicreport.Section(&p.Report, p.c.Music, nil)
	p.Section("CUTS")
	for _, c := range p.c.Cuts {
		p.cut(c)
	}
	p.proposals()
	p.takes()
	p.order()
	p.needs()
	p.troubles()
	p.Defaults(d.Defaults)
	return p.Report
}

func (p *page) troubles() {
	p.Section("MUST NOT BE FILMED YET")
	for _, t := range p.d.Troubles {
		p.Bullets(report.Poor, "x", t.File+": "+t.Text+"; \"seamrail plan\" says where")
	}
}

func (p *page) length() {
	p.Field("length", fmt.Sprintf("%s, %s s on screen", plain.Count(p.c.Frames, "frame"), p.c.OnScreen().Decimal(3)))
	p.Field("timecode", fmt.Sprintf("%s to %s", p.c.Label(0), p.c.Label(p.c.Frames-1)))
	p.Field("playback", clock.RateText(p.c.Playback)+" frames/s")
	last := p.c.Cuts[len(p.c.Cuts)-1]
	p.Toned(grades[last.Momentum].tone, "its own loop", loopWords(last))
}

// head is the headline of a shot.
func (p *page) head(x Head) {
	p.Toned(report.JudgeTone(x.Headline.Tone), x.Headline.Stamp, x.File+": "+x.Headline.Words)
}

func (p *page) pieces() {
	p.Section("SHOTS")
	for i, x := range p.c.Pieces {
		p.Field(fmt.Sprintf("%3d", i+1), fmt.Sprintf("%s  %s, %s s", p.c.Label(x.Start), plain.Count(x.Frames, "frame"),
			exact.Int(x.Frames).Quo(p.c.Playback).Decimal(3)))
		p.Field("", x.Shot.Title+" ("+x.Entry.File+")")
		p.Toned(report.Dim, "", pieceWords(x))
	}
}

// pieceWords says which frames of a shot's loop are seen.
func pieceWords(x sequence.Piece) string {
	loop := x.Shot.Loop.Screen
	words := fmt.Sprintf("frames %d to %d of its loop of %d", x.From, x.Last(), loop)
	switch {
	case x.From == 0 && x.Frames == loop:
		words = fmt.Sprintf("all %d frames of its loop", loop)
	case x.From == 0 && x.Frames%loop == 0:
		words = fmt.Sprintf("its loop of %d frames, %d times over", loop, x.Frames/loop)
	case x.Wraps() > 0:
		words = fmt.Sprintf("from frame %d of its loop of %d; its seam is passed %s", x.From, loop, times(x.Wraps()))
	}
	if rounds := x.Trajectory.Rounds(); x.Wraps() >= rounds {
		words += fmt.Sprintf("; a take has %s, and the edit shows some again", plain.Count(rounds, "round"))
	}
	if x.Rounded {
		words += "; to the nearest whole frame"
	}
	return words
}

func times(n int64) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// duration is a real time as a person reads it: "41.2 s", "12 min 5 s",
// "1 h 12 min", to the nearest.
func duration(s exact.Rat) string {
	if s.Less(exact.Int(60)) {
		return s.Decimal(1) + " s"
	}
	const hour = 3600
	if !s.Less(exact.Int(hour)) {
		minutes := s.Quo(exact.Int(60)).Round().Whole()
		return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
	}
	whole := s.Round().Whole()
	if whole%60 == 0 {
		return fmt.Sprintf("%d min", whole/60)
	}
	return fmt.Sprintf("%d min %d s", whole/60, whole%60)
}
