package drive

import (
	"time"
)

// progressEvery is how often progress is told: ten times a second looks alive.
const progressEvery = 100 * time.Millisecond

func (p *pass) due() time.Time { return earlier(p.next, p.beats.due(p)) }

func (p *pass) tick() {
	p.beats.tick(p)
	if p.now.Before(p.next) {
		return
	}
	p.next = p.now.Add(progressEvery)
	if p.state == Running || p.state == Slowing || p.state == Draining {
		p.Observer.Progress(p.progress())
	}
}

func (p *pass) progress() Progress {
	sec := p.sec()
	g := Progress{
		State: p.state, Take: p.take, Round: -1, Elapsed: seconds(sec),
		Position: p.position, Reported: p.position != nil, Deviation: p.off, Late: p.late, Fill: p.fill,
	}
	in := 0.0 // s into the round
	if sec >= 0 {
		g.Round = int64(sec / p.period)
		if p.total > 0 {
			g.Round = min(g.Round, p.total-1)
		}
		in = min(max(sec-float64(g.Round)*p.period, 0), p.period)
	}
	t := p.Trajectory
	frame := int64(in * t.Clock().Capture.Float())
	g.Frame, g.Back = min(frame, t.Captured()-1), frame >= t.Captured() && t.RoundFrames() > t.Captured()
	g.Timecode = p.label(g.Frame)
	g.Share = in / p.period
	if p.total > 0 {
		g.Share = min(max((sec+p.runUp)/p.planned(p.total), 0), 1)
	}
	if g.Position == nil {
		for i := range p.axes {
			g.Position = append(g.Position, p.planAt(i, p.ofRounds(), sec))
		}
	}
	return g
}
