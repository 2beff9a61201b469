package sequence

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/music"
)

// Join joins a sequence and its planned shots, one for each entry, into a clip.
// The error is a fault.List: shots of differing playback rates, a piece that
// begins beyond its loop, a label that is none.
func Join(s Sequence, planned []Planned) (*Clip, error) {
	if len(planned) != len(s.Entries) || len(planned) == 0 {
		panic(fmt.Sprintf("sequence: %d planned shots for %d entries", len(planned), len(s.Entries)))
	}
	report := &source.Report{File: s.File}
	c := &Clip{Title: s.Title, File: s.File, Playback: s.rate(planned), Day: s.Day, Card: s.Card, Counted: !s.Day.Timed}
	s.checkRates(report, planned, c.Playback)
	if err := report.Faults.Err(); err != nil {
		return nil, err
	}
	c.Music.Music = s.music.Build(report, "music.", c.Playback, s.beside)
	end := exact.Rat{} // of the piece before, in s on screen, as the music has it
	for i, e := range s.Entries {
		p := e.placed(report, planned[i], c.Frames)
		end = e.cutAt(report, &p, &c.Music, end)
		c.Pieces = append(c.Pieces, p)
		c.Frames += p.Frames
	}
	s.labels(report, c)
	if err := report.Faults.Err(); err != nil {
		return nil, err
	}
	c.film(report)
	if err := report.Faults.Err(); err != nil {
		return nil, err
	}
	return c, c.cut()
}

// rate is the playback rate of the clip: as stated, or the first shot's.
func (s Sequence) rate(planned []Planned) exact.Rat {
	if s.Playback.Sign() > 0 {
		return s.Playback
	}
	return planned[0].Shot.Clock.Playback
}

// checkRates faults every shot that plays at another rate than the clip.
func (s Sequence) checkRates(report *source.Report, planned []Planned, rate exact.Rat) {
	whose := "the first shot"
	if s.Playback.Sign() > 0 {
		whose = "the sequence"
	}
	for i, e := range s.Entries {
		if own := planned[i].Shot.Clock.Playback; !own.Equal(rate) {
			report.Wrong(e.file, e.path+"file", fmt.Sprintf("plays at %s frames/s, and %s at %s", clock.RateText(own), whose, clock.RateText(rate)),
				"give all shots of a sequence one playback rate")
		}
	}
}

// placed finds which frames of a shot are seen.
func (e Entry) placed(report *source.Report, planned Planned, start int64) Piece {
	p := Piece{Planned: planned, Entry: e, Start: start}
	loop := planned.Shot.Loop
	rate := planned.Shot.Clock.Playback
	p.From = p.frames(e.From, rate)
	if p.From >= loop.Screen {
		report.Wrong(e.from, e.path+"from", fmt.Sprintf("must be within the shot's loop of %d frames", loop.Screen),
			fmt.Sprintf("\"%d frames\" is the same place in the loop", p.From%loop.Screen))
	}
	p.Frames = e.Rounds * loop.Screen
	if e.Length.Value.Sign() > 0 {
		p.Frames = max(1, p.frames(e.Length, rate))
	}
	return p
}

// cutAt lets a piece end where the entry names a moment of the clip: a cut is on the frame
// nearest to its own moment, so that lengths in beats do not add up what each is rounded
// by. It returns that moment, in s on screen; end is that of the piece before.
func (e Entry) cutAt(report *source.Report, p *Piece, named *music.Score, end exact.Rat) exact.Rat {
	rate := p.Shot.Clock.Playback
	at, key := e.length, "length"
	var spot music.Spot
	switch {
	case e.Beats.Beats.Sign() > 0:
		spot = named.Spot(e.path+"length", e.Beats.Text, end.Add(e.Beats.Seconds))
	case music.Named(e.until.Text):
		spot, _ = named.Place(report, e.until, e.path+"until")
		at, key = e.until, "until"
	case e.until.Set:
		p.Frames = p.frames(e.Until, rate) - p.Start
		at, key = e.until, "until"
	}
	if spot.Text != "" {
		named.Spots = append(named.Spots, spot)
		p.Frames = spot.Frame - p.Start
	}
	switch {
	case p.Frames < 1 && at.Set:
		report.Wrong(at, e.path+key, fmt.Sprintf("must be after the shot begins, at frame %d of the clip", p.Start), "")
	case p.Frames > clock.MaxFrames || p.Frames < 1:
		if !at.Set {
			at = e.file
		}
		report.Wrong(at, e.path+key, fmt.Sprintf("must be at most %d frames", clock.MaxFrames), "")
	}
	e.dissolves(report, p)
	if spot.Text != "" {
		return spot.At
	}
	return exact.Int(p.Start + p.Frames).Quo(rate)
}

// frames is the whole number of frames nearest to a time on screen, at most one
// more than a loop may have.
func (p *Piece) frames(q unit.Quantity, rate exact.Rat) int64 {
	n := q.Value
	if q.Dim == unit.Time {
		n = n.Mul(rate)
	}
	whole := n.Round()
	p.Rounded = p.Rounded || !whole.Equal(n)
	if exact.Int(clock.MaxFrames).Less(whole) {
		return clock.MaxFrames + 1
	}
	return whole.Whole()
}

// labels sets the timecode of the clip.
func (s Sequence) labels(report *source.Report, c *Clip) {
	tc, err := clock.NewTimecode(c.Playback, s.dropFrame.On)
	if err != nil {
		report.Faults = append(report.Faults, fault.Fault{File: s.File, Line: s.dropFrame.Line, Column: s.dropFrame.Column,
			Quantity: "drop-frame", Bound: err.Error()})
		tc, _ = clock.NewTimecode(c.Playback, false)
	}
	c.Timecode = tc
	if !s.timecode.Set {
		return
	}
	n, err := tc.Parse(s.timecode.Text)
	if err != nil {
		report.Fail(s.timecode, "timecode", err)
	}
	c.Start = n
}
