package sequencereport

import (
	"fmt"
	"io"

	"seamrail/export/header"
	"seamrail/export/textpage"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan/judge"
)

type page struct {
	textpage.Page
	d Data
	c *sequence.Clip
}

// Write writes the report as text of at most 80 columns, plain unless
// opt.Colour. The error is the writer's.
func Write(w io.Writer, d Data, opt Options) error {
	p := &page{textpage.Page{Colour: opt.Colour}, d, d.Clip}
	p.head()
	p.heads()
	p.pieces()
	p.cuts()
	p.order()
	p.needs()
	p.troubles()
	p.defaults()
	_, err := p.WriteTo(w)
	return err
}

func (p *page) head() {
	for _, l := range textpage.Fold(header.Clean(p.c.Title), textpage.Width) {
		p.Line(p.Paint(textpage.Bold+";"+textpage.Cyan, l))
	}
	p.Line(p.Paint(textpage.Dim, counted(int64(len(p.c.Pieces)), "shot")+" joined into a clip"))
	p.Section("THE CLIP")
	p.Field("length", fmt.Sprintf("%s, %s s on screen", counted(p.c.Frames, "frame"), p.c.OnScreen().Decimal(3)))
	p.Field("timecode", fmt.Sprintf("%s to %s", p.c.Label(0), p.c.Label(p.c.Frames-1)))
	p.Field("playback", clock.RateText(p.c.Playback)+" frames/s")
	last := p.c.Cuts[len(p.c.Cuts)-1]
	p.Inked(inks[last.Momentum], "its own loop", loopWords(last))
}

func (p *page) pieces() {
	p.Section("SHOTS")
	for i, x := range p.c.Pieces {
		p.Field(fmt.Sprintf("%3d", i+1), fmt.Sprintf("%s  %s, %s s", p.c.Label(x.Start), counted(x.Frames, "frame"),
			exact.Int(x.Frames).Quo(p.c.Playback).Decimal(3)))
		p.Field("", header.Clean(x.Shot.Title)+" ("+header.Clean(x.Entry.File)+")")
		p.Inked(textpage.Dim, "", pieceWords(x))
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
		words += fmt.Sprintf("; a take has %s, and the edit shows some again", counted(rounds, "round"))
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

// heads are the headlines of the shots.
func (p *page) heads() {
	if len(p.d.Heads) == 0 {
		return
	}
	p.Section("EACH SHOT BY ITSELF")
	tones := map[judge.Tone]string{judge.Clear: textpage.Green, judge.Minded: textpage.Yellow, judge.Barred: textpage.Red}
	for _, x := range p.d.Heads {
		p.Inked(tones[x.Headline.Tone], x.Headline.Stamp, header.Clean(x.File+": "+x.Headline.Words))
	}
}

func (p *page) troubles() {
	if len(p.d.Troubles) == 0 {
		return
	}
	p.Section("MUST NOT BE FILMED YET")
	for _, t := range p.d.Troubles {
		p.Bullet(textpage.Red, "x", header.Clean(t.File+": "+t.Text)+"; \"seamrail plan\" says where")
	}
}

func (p *page) defaults() {
	if len(p.d.Defaults) == 0 {
		return
	}
	p.Section("FILLED IN FOR YOU")
	for _, x := range p.d.Defaults {
		p.Bullet(textpage.Dim, "-", header.Clean(x.Key+" = "+x.Value+": "+x.Why))
	}
}
