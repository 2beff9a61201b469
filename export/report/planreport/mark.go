package planreport

import (
	"math"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue/syncmark"
)

// mark tells how frame 0 is found in the recording.
func (p *page) mark() {
	m := p.d.Mark
	if m == nil {
		p.Field("frame 0", syncmark.Unmarked(p.d.Eye, p.d.Eye > 0))
		return
	}
	rounds := int64(p.pl.Rounds)
	p.Named("frame-0", "FRAME 0")
	p.Field("sync mark", m.What())
	p.Field("is", m.Where(rounds))
	p.Field("follows", m.Follows())
	p.Fields("left open", m.LeftOpen(rounds))
	p.Fields("mind", m.Minds())
}

// SyncMark is the mark by which frame 0 is found.
type SyncMark struct {
	With    string    `json:"with"`
	What    string    `json:"what"`           // in words
	Begins  exact.Rat `json:"begins_seconds"` // what the board does, from frame 0
	Seen    exact.Rat `json:"seen_seconds"`   // what is seen of it, from frame 0
	Frame   exact.Rat `json:"frame"`          // the same in captured frames
	Second  *string   `json:"second_frame"`   // of the mark after the take; null where there is none
	First   string    `json:"first"`          // the frame that is looked for
	Count   int64     `json:"count"`          // frames from that to frame 0
	From    float64   `json:"from"`           // before it was made whole
	GiveBy  float64   `json:"give_or_take"`   // frames
	Phase   float64   `json:"phase_frames"`   // of which the camera's clock makes so many
	Means   float64   `json:"means_frames"`   // and what makes the mark
	Clocks  float64   `json:"clocks_frames"`  // and both clocks up to frame 0
	PPM     float64   `json:"clocks_ppm"`
	SeamPx  *float64  `json:"seam_px"` // that such clocks open the seam by
	Kept    int64     `json:"kept"`    // frames from the first to frame 0 of the round to keep
	KeptBy  float64   `json:"kept_give_or_take"`
	LeftOut []string  `json:"left_open"` // in words
}

// figures of a mark keep three decimals of a frame.
func markOf(m *syncmark.Mark, rounds int64) *SyncMark {
	if m == nil {
		return nil
	}
	d := m.Doubt()
	kept, by := m.Kept(rounds)
	out := &SyncMark{
		With: m.Name(), What: m.What(), Begins: m.At(), Seen: m.Seen(), Frame: m.Frame(), First: m.First(),
		Count: m.Count(), From: milli(m.From()), GiveBy: milli(d.Frames()), Phase: d.Phase, Means: milli(d.Means), Clocks: milli(d.Clocks),
		PPM: milli((d.Rig + d.Camera) * 1e6), Kept: kept, KeptBy: milli(by), LeftOut: report.List(m.LeftOpen(rounds)),
	}
	if f, ok := m.SecondFrame(rounds); ok {
		text := f.String()
		out.Second = &text
	}
	if px := m.Opens(); !math.IsNaN(px) {
		px = milli(px)
		out.SeamPx = &px
	}
	return out
}

// milli keeps three decimals.
func milli(x float64) float64 { return math.Round(x*1000) / 1000 }
