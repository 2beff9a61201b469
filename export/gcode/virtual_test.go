package gcode_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
	"seamrail/export/gcode"
	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/move"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

// slowHost is how long a host takes from an answer to the next line, where a
// serial adapter holds characters back for its usual 16 ms.
const slowHost = 16 * time.Millisecond

// play sends a program to a rig of software, which shares no planning with the
// exporter, a character counted by its answers, and returns the rig when all
// has been run.
func play(t *testing.T, program string, r rig.Rig) *virtual.Rig {
	t.Helper()
	o := virtual.Of(r)
	o.StartsLocked, o.BootSeconds = false, 0
	board := virtual.New(o)
	free := r.Controller.ReceiveBuffer - 1
	var pending []int
	answers := ""
	hear := func() {
		answers += string(board.Read(nil))
		for {
			line, rest, ok := strings.Cut(answers, "\n")
			if !ok {
				return
			}
			answers = rest
			require.NotContains(t, line, "error")
			if strings.TrimSpace(line) == "ok" {
				free += pending[0]
				pending = pending[1:]
			}
		}
	}
	step := func() bool {
		next, ok := board.NextReply()
		if !ok {
			next, ok = board.Next()
		}
		if ok {
			board.AdvanceTo(next)
			hear()
		}
		return ok
	}
	for _, line := range strings.Split(strings.TrimSpace(program), "\n") {
		if strings.HasPrefix(line, "(") || line == "M2" {
			continue
		}
		lockstep := r.Controller.Kind == rig.Lockstep
		for free < len(line)+1 || lockstep && len(pending) > 0 {
			require.True(t, step(), "the board must answer")
		}
		if lockstep {
			board.AdvanceTo(board.Now() + slowHost)
		}
		_, err := board.Write([]byte(line + "\n"))
		require.NoError(t, err)
		free -= len(line) + 1
		pending = append(pending, len(line)+1)
	}
	for step() {
	}
	require.Empty(t, pending)
	return board
}

// begins is when the take begins on the board: the first motion after the
// dwell that lets its buffers fill.
func begins(board *virtual.Rig) float64 {
	rec := board.Record()
	for i := 1; i < rec.Len(); i++ {
		if gap := rec.Span(i).Start - rec.Span(i-1).End; gap > 0.4 {
			return rec.Span(i).Start
		}
	}
	return math.NaN()
}

// The exporter says how long a take will last and how far it will stray; a rig
// of software that plans for itself agrees.
func TestAnIndependentPlannerAgrees(t *testing.T) {
	bench := func(feed rig.FeedStyle, acc float64) rig.Rig {
		r := sample.Bench(feed)
		r.Controller.SlowestStepRate, r.Controller.Baud, r.Controller.ReceiveBuffer = 30.5, 115200, 128
		r.Controller.Blocks, r.Controller.JunctionDeviation, r.Controller.FeedDecimals = 16, 0.01, 3
		r.Controller.PathFeed, r.Controller.DegreeAs, r.Controller.RateError = rig.AlongAll, 1, 0.0008
		r.Axes[0].Settings.Acceleration, r.Axes[1].Settings.Acceleration = acc, 3000
		return r
	}
	patient := bench(rig.InverseTime, 3000)
	patient.Controller.Kind = rig.Lockstep
	for _, c := range []struct {
		name  string
		rig   rig.Rig
		law   string
		table bool
	}{
		{"rail, harmonic, hardly enough acceleration", bench(rig.InverseTime, 400), "harmonic", false},
		{"rail", bench(rig.InverseTime, 1000), "3-4-5", false},
		{"rail and table", bench(rig.InverseTime, 3000), "3-4-5", true},
		{"a line, an answer", patient, "3-4-5", true},
		{"a minute's feed", bench(rig.PerMinute, 3000), "cycloidal", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			rail := sample.Rail(t, c.law, 200)
			rail = sample.Ways(rail, func(w *move.Ways) { w.DwellFar = exact.Rat{} })
			tr := sample.Make(t, 96, c.rig, rail)
			if c.table {
				table := sample.Table(t)
				table = sample.Turning(table, exact.Int(1))
				tr = sample.Make(t, 96, c.rig, rail, table)
			}
			agree(t, tr)
		})
	}
}

// Between two planners that cut time differently, one into ramps and one into
// hundredths of a second, there may be a step, and half a millisecond.
const (
	plannersApart = 0.0005
	stepApart     = 1.5
)

func agree(t *testing.T, tr *trajectory.Trajectory) {
	t.Helper()
	const rounds = 5
	chosen, err := ontime.Choose(tr, rounds)
	require.NoError(t, err)
	require.Empty(t, chosen.Expected.Faults)
	var b bytes.Buffer
	require.NoError(t, gcode.Write(&b, tr, header.Of(tr.Plan(), verify.Check(tr)), gcode.Options{Rounds: rounds, Segmenter: chosen}))
	require.Contains(t, b.String(), fmt.Sprintf("(expected: %.4f s for", chosen.Expected.RoundExecuted))
	board := play(t, b.String(), tr.Rig())
	rec := board.Record()
	begin := begins(board)
	took := rec.Span(rec.Len()-1).End - begin
	assert.InDelta(t, chosen.Expected.Executed, took, plannersApart, "the whole take")
	p := tr.Plan()
	zero := begin + p.Loop.Clock.FrameTime(p.RunUp).Float()
	for k := range tr.Captured() * rounds {
		f := tr.Frame(k)
		got := rec.At(zero + f.Seconds.Float())
		for i, d := range chosen.Expected.Axes {
			allowed := math.Abs(d.Worst) + stepApart/tr.Axis(i).StepsPerUnit.Float()
			require.InDelta(t, f.States[i].Pos, got[i], allowed, "%s at frame %d", d.Axis, k)
		}
	}
}
