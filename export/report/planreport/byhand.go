package planreport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan"
)

// ByHand is what is set on a rig that is started by hand, and how its own rounds suit the
// loop.
type ByHand struct {
	Way      exact.Rat `json:"way_seconds"`   // as its buttons say
	Pause    exact.Rat `json:"pause_seconds"` // at both ends; 0 where each way has a press of its own
	EachWay  bool      `json:"press_each_way"`
	Ramp     string    `json:"ramp"`
	Measured string    `json:"clock_measured"` // "" where its clock was taken to be right
	Round    float64   `json:"round_real_seconds"`
	Longer   float64   `json:"loop_longer_captured_frames"`
	Known    float64   `json:"known_to_captured_frames"` // standard uncertainty
	Start    float64   `json:"start_known_to_captured_frames"`
	Steps    []string  `json:"steps"`
	Offers   []Offer   `json:"offers"` // loops next to this one, those that close best first
}

// Offer is a loop that the buttons offer.
type Offer struct {
	Capture exact.Rat `json:"capture"`
	Screen  int64     `json:"timeline_frames"`
	Way     exact.Rat `json:"way_seconds"`
	Pause   exact.Rat `json:"pause_seconds"`
	Longer  float64   `json:"loop_longer_captured_frames"`
	Jump    float64   `json:"jump_share_of_way"` // at the seam of the round to keep, at the worst
}

func byHandOf(p *plan.Plan) *ByHand {
	if p.Set == nil {
		return nil
	}
	s, b, slip := *p.Set, p.Rig.Controller.Buttons, p.Slip()
	return &ByHand{
		Way: s.Way, Pause: s.Pause, EachWay: s.Pressed, Ramp: b.Ramp.Words(), Measured: b.Basis,
		Round: peaks.Of(s.Round().Float()), Longer: peaks.Of(slip.Off.Float()), Known: peaks.Of(slip.Spread),
		Start: peaks.Of(p.StartSpread()), Steps: p.Presses(),
		Offers: report.Each(p.Offers(), func(o plan.Offer) Offer {
			slip := p.SlipOf(o)
			return Offer{o.Loop.Clock.Capture, o.Loop.Screen, o.Set.Way, o.Set.Pause, peaks.Of(slip.Off.Float()), jumps.Of(slip.Jump)}
		}),
	}
}

// byHand tells what is set and pressed, and which loops its buttons offer.
func (p *page) byHand() {
	pl := p.pl
	if pl.Set == nil {
		return
	}
	s, b, slip := *pl.Set, pl.Rig.Controller.Buttons, pl.Slip()
	p.Named("by-hand", "BY HAND")
	p.Fields("steps", pl.Presses())
	p.Field("its ramp", b.Ramp.Words())
	clock := "taken to be right; nobody has measured it"
	if b.Measured() {
		off, way := b.Pace.Sub(exact.Int(1)), "slow"
		if off.Sign() < 0 {
			way = "fast"
		}
		clock = fmt.Sprintf("%s %% %s, known to %s %%: %s", per100(off.Abs()), way, per100(b.Spread), b.Basis)
	}
	p.Field("its clock", clock)
	p.Field("its round", fmt.Sprintf("%s; the loop is longer by %.2f captured frames", seconds(s.Round()), slip.Off.Float()))
	p.Add(offersTable(pl))
}

func per100(v exact.Rat) string { return v.Mul(exact.Int(100)).Decimal(3) }

func offersTable(pl *plan.Plan) report.Table {
	t := report.Table{Columns: []report.Column{{Head: "capture"}, {Head: "loop"}, {Head: "way"}, {Head: "rests"}, {Head: "longer by"}, {Head: "seam off, of the way"}}}
	for _, o := range pl.Offers() {
		slip := pl.SlipOf(o)
		t.Rows = append(t.Rows, report.Row{Cells: []string{
			clock.RateText(o.Loop.Clock.Capture), fmt.Sprintf("%d frames", o.Loop.Screen), seconds(o.Set.Way),
			unit.Format(o.Set.RestFar.Float(), unit.Time), fmt.Sprintf("%.2f frames", slip.Off.Float()), fmt.Sprintf("%.3f %%", 100*slip.Jump),
		}})
	}
	return t
}
