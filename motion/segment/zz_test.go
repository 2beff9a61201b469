package segment_test

import (
	"fmt"
	"testing"
	"time"

	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/sample"
	"seamrail/motion/segment"
	"seamrail/motion/shot"
)

func TestZZ(t *testing.T) {
	run := func(name string, frames int64, span int64, law string, turn exact.Rat, change func(r *rig.Rig)) {
		r := sample.Bench(rig.InverseTime)
		r.Controller.SlowestStepRate = 30.5
		r.Controller.Baud = 115200
		change(&r)
		rail := sample.Rail(t, law, span)
		rail.DwellFar = exact.Int(0)
		mv := []shot.AxisMove{rail}
		if turn.Sign() != 0 {
			tb := sample.Table(t)
			tb.Turns = turn
			mv = append(mv, tb)
		}
		tr := sample.Make(t, frames, r, mv...)
		t0 := time.Now()
		ch, err := segment.Choose(tr, 3)
		p := ch.Expected
		d := time.Since(t0)
		w := ""
		for _, a := range p.Axes {
			w += fmt.Sprintf(" %s %.3f@%d", a.Axis, a.Worst, a.Frame)
		}
		fmt.Printf("%s: %v %v blocks %d dt %.3f round late %.3f ms all %.3f%s ok=%v\n", name, d.Round(time.Microsecond), err, p.Blocks, p.Longest, p.RoundLate*1e3, p.Late*1e3, w, p.Follows())
		if len(p.Faults) > 0 {
			fmt.Println(p.Faults.Error())
		}
	}
	one := exact.Int(1)
	no := exact.Int(0)
	run("plain", 96, 200, "harmonic", no, func(r *rig.Rig) {})
	run("acc 250", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Axes[0].Settings.Acceleration = 250 })
	run("acc 200", 96, 200, "harmonic", one, func(r *rig.Rig) { r.Axes[0].Settings.Acceleration = 200 })
	run("9600", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Controller.Baud = 9600 })
	run("2400", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Controller.Baud = 2400 })
	run("lockstep", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Controller.Kind = rig.Lockstep })
	run("blocks 6", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Controller.Blocks = 6; r.Axes[0].Settings.Acceleration = 500 })
	run("jd .0001", 96, 200, "harmonic", one, func(r *rig.Rig) { r.Controller.JunctionDeviation = 0.0001 })
	run("jd .001", 96, 200, "harmonic", one, func(r *rig.Rig) {
		r.Controller.JunctionDeviation = 0.001
		r.Axes[0].Settings.Acceleration = 1000
		r.Axes[1].Settings.Acceleration = 1000
	})
	run("slow", 24*60, 10, "harmonic", no, func(r *rig.Rig) {})
	run("slow+table", 24*60, 10, "harmonic", one, func(r *rig.Rig) {})
	run("slow100", 24*60, 100, "harmonic", no, func(r *rig.Rig) {})
	run("segrate", 96, 200, "harmonic", no, func(r *rig.Rig) { r.Controller.SegmentRate = 20 })
	run("90deg/s", 144, 100, "3-4-5", exact.New(3, 2), func(r *rig.Rig) { r.Axes[1].StepsPerUnit = exact.New(80, 3); r.Controller.JunctionDeviation = .1 })
	run("perminute", 144, 100, "3-4-5", one, func(r *rig.Rig) {
		r.Controller.Feed = rig.PerMinute
		r.Controller.PathFeed = rig.AlongAll
		r.Controller.FeedDecimals = 1
	})
	run("perminute lin", 144, 100, "3-4-5", one, func(r *rig.Rig) { r.Controller.Feed = rig.PerMinute; r.Controller.FeedDecimals = 1 })
}
