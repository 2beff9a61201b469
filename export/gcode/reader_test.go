package gcode_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/gcode"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/ontime"
	rs274 "seamrail/motion/controller/program"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// readerVariable asks for the tests that need rs274, the standalone RS-274/NGC
// interpreter of Debian's linuxcnc-uspace, an independent reader.
const readerVariable = "SEAMRAIL_RS274"

// canonical is one motion as rs274 understood it.
type canonical struct {
	x, a, rate, dwell float64 // mm, degrees, units a minute, s
}

// read runs the program through rs274 and returns its motions and dwells.
func read(t *testing.T, program string) []canonical {
	t.Helper()
	return parse(t, interpret(t, program))
}

// interpret runs the program through rs274 and returns all that it understood.
func interpret(t *testing.T, program string) string {
	t.Helper()
	if os.Getenv(readerVariable) == "" {
		t.Skipf("set %s=1 to read programs back with rs274", readerVariable)
	}
	file := filepath.Join(t.TempDir(), "take.ngc")
	require.NoError(t, os.WriteFile(file, []byte(program), 0o600))
	out, err := exec.Command("rs274", "-g", file).CombinedOutput()
	require.NoError(t, err, "rs274 must be installed and accept the program:\n%s", tail(out))
	return string(out)
}

func tail(out []byte) string { return string(out[max(0, len(out)-600):]) }

func parse(t *testing.T, out string) []canonical {
	t.Helper()
	var list []canonical
	rate := 0.0
	for _, line := range strings.Split(out, "\n") {
		_, call, ok := strings.Cut(line, "N..... ")
		if !ok {
			continue
		}
		var y, z, b, c float64
		m := canonical{}
		switch {
		case scan(call, "SET_FEED_RATE(%f)", &rate):
		case scan(call, "DWELL(%f)", &m.dwell):
			list = append(list, m)
		case scan(call, "STRAIGHT_FEED(%f, %f, %f, %f, %f, %f)", &m.x, &y, &z, &m.a, &b, &c):
			require.Zero(t, [4]float64{y, z, b, c})
			m.rate = rate
			list = append(list, m)
		}
	}
	return list
}

func scan(s, format string, into ...any) bool {
	n, err := fmt.Sscanf(s, format, into...)
	return err == nil && n == len(into)
}

const (
	// wordGrain is half the last of the three decimals of a word.
	wordGrain = 0.0005 + 1e-9
	// rateGrain is half the last of the four decimals that rs274 prints.
	rateGrain = 0.00005
)

// took returns how long a motion from before takes, and how far the printed
// rate leaves that open.
func (m canonical) took(before canonical) (sec, open float64) {
	if m.dwell > 0 {
		return m.dwell, rateGrain // printed with as many decimals
	}
	d := math.Abs(m.x - before.x)
	if d == 0 {
		d = math.Abs(m.a - before.a)
	}
	sec = d / m.rate * 60
	return sec, sec*rateGrain/m.rate + sec*1e-6
}

func TestIndependentReader(t *testing.T) {
	const rounds = 20
	for name, tr := range map[string]*trajectory.Trajectory{
		"at rest":      sample.Still(t),
		"inverse time": sample.Through(t),
		"per minute":   sample.With(t, rig.PerMinute),
	} {
		t.Run(name, func(t *testing.T) {
			program := text(t, tr, gcode.Options{Rounds: rounds, Segmenter: segment.EqualTime{}})
			follow(t, tr, read(t, program), rounds)
		})
	}
}

// A program that is cut for a controller tells it other times than the path's,
// to make up for how it runs them, and no reader but a controller can know
// that; its places are those of the path, within what is promised, all the same.
func TestIndependentReaderOfAFittedProgram(t *testing.T) {
	r := sample.Bench(rig.InverseTime)
	r.Axes[1].Settings.Acceleration = 3000
	tr := sample.Make(t, 24, r, sample.Rail(t, "3-4-5", 2), sample.Table(t))
	chosen, err := ontime.Choose(tr, 2)
	require.NoError(t, err)
	list := read(t, text(t, tr, gcode.Options{Rounds: 2, Segmenter: chosen}))
	program := rs274.New(tr, chosen.Take)
	program.FinishAfter(2)
	var lines []rs274.Line
	for l, ok := program.Next(); ok; l, ok = program.Next() {
		if l.Round > rs274.Setup && l.Start < l.End {
			lines = append(lines, l)
		}
	}
	require.Greater(t, len(lines), 50)
	list = list[len(list)-len(lines):]
	for n, l := range lines {
		if !l.Moves || l.Round < 0 || l.Round == 2 {
			continue
		}
		for axis, place := range []float64{list[n].x, list[n].a} {
			allowed := wordGrain + ontime.PromisedDistance + 1/tr.Axis(axis).StepsPerUnit.Float()
			require.InDelta(t, tr.TakeState(axis, 2, l.End).Pos, place, allowed, "axis %d at %.6f s", axis, l.End)
		}
	}
}

// follow holds the time and place of every motion that was read against the
// trajectory.
func follow(t *testing.T, tr *trajectory.Trajectory, list []canonical, rounds int64) {
	t.Helper()
	start := 0
	for list[start].dwell == 0 {
		start++
	}
	require.Equal(t, tr.AxisCount(), start, "one gentle move an axis, then the dwell")
	p := tr.Plan()
	begin := -p.Loop.Clock.FrameTime(p.RunUp).Float()
	now, slack := begin, 1e-5
	before := canonical{x: list[start-1].x, a: list[start-1].a}
	for _, m := range list[start+1:] {
		sec, open := m.took(before)
		now, slack = now+sec, slack+open
		if m.dwell > 0 {
			m.x, m.a = before.x, before.a
		}
		requireAt(t, tr, rounds, now, slack, 0, m.x)
		if tr.AxisCount() > 1 {
			requireAt(t, tr, rounds, now, slack, 1, m.a)
		}
		before = m
	}
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	once := segment.Total(take.RunUp).Add(segment.Total(take.RunOut))
	require.InDelta(t, segment.Total(take.Round).Mul(exact.Int(rounds)).Add(once).Float(), now-begin, slack, "duration of the take")
}

func requireAt(t *testing.T, tr *trajectory.Trajectory, rounds int64, sec, slack float64, axis int, got float64) {
	t.Helper()
	s := tr.TakeState(axis, rounds, sec)
	// A motor step of the rail is 0.0125 mm: a word may wait for one.
	require.InDelta(t, s.Pos, got, wordGrain+math.Abs(s.Vel)*slack+1/tr.Axis(axis).StepsPerUnit.Float(),
		"axis %d at %.6f s", axis, sec)
}

const (
	markLasts, markRests, markBefore, markAfter = 0.2, 1.5, 2.0, 1.0 // s
	markOut                                     = 1.5                // mm
)

// marked is what the reader understands of a take of two rounds with a sync mark at each end.
func marked(t *testing.T, tr *trajectory.Trajectory, mark rs274.Mark) string {
	t.Helper()
	take, err := segment.EqualTime{}.Cut(tr)
	require.NoError(t, err)
	program := rs274.New(tr, take)
	mark.Length, mark.Rest, mark.Before, mark.After = markLasts, markRests, markBefore, markAfter
	program.Open(rs274.Opening{Mark: mark})
	program.FinishAfter(2)
	var text strings.Builder
	for l, ok := program.Next(); ok; l, ok = program.Next() {
		text.WriteString(l.Text + "\n")
	}
	require.NoError(t, program.Err())
	return interpret(t, text.String())
}

// TestAReaderFollowsAMarkByAnOutput: before the take and after it the output is switched on,
// and off a dwell later, and nothing moves between.
func TestAReaderFollowsAMarkByAnOutput(t *testing.T) {
	for _, feed := range []rig.FeedStyle{rig.InverseTime, rig.PerMinute} {
		tr := sample.With(t, feed)
		understood := marked(t, tr, rs274.Mark{On: "M8", Off: "M9"})
		list := parse(t, understood)
		lit, last := list[tr.AxisCount():], list[len(list)-2:]
		require.InDelta(t, 0.5, lit[0].dwell, rateGrain, "%v: in the dark", feed)
		require.Equal(t, []float64{markLasts, markRests}, []float64{lit[1].dwell, lit[2].dwell}, feed)
		require.Equal(t, []float64{markAfter, markLasts}, []float64{last[0].dwell, last[1].dwell}, feed)
		for n := range 2 {
			require.Equal(t, []string{"FLOOD_ON", "DWELL", "MIST_OFF", "FLOOD_OFF"}, around(understood, n), feed)
		}
	}
}

// TestAReaderFollowsATwitch: the axis is out for as long, at a tenth of its greatest speed
// by a feed a minute in either style, and back on the very place; so is it after the take.
func TestAReaderFollowsATwitch(t *testing.T) {
	for _, feed := range []rig.FeedStyle{rig.InverseTime, rig.PerMinute} {
		tr := sample.With(t, feed)
		list := parse(t, marked(t, tr, rs274.Mark{Out: markOut}))
		at, lit, last := list[tr.AxisCount()-1], list[tr.AxisCount()+1:], list[len(list)-4:]
		for k, x := range []canonical{{x: at.x + markOut}, {dwell: markLasts}, {x: at.x}, {dwell: markRests}} {
			require.Equal(t, x.dwell, lit[k].dwell, feed)
			if x.dwell == 0 {
				require.InDelta(t, x.x, lit[k].x, wordGrain, feed)
				require.InDelta(t, at.a, lit[k].a, wordGrain, feed)
				require.InDelta(t, tr.Axis(0).MaxSpeed*0.1*60, lit[k].rate, rateGrain, feed)
			}
		}
		require.Equal(t, []float64{markAfter, markLasts}, []float64{last[0].dwell, last[2].dwell}, feed)
		require.InDelta(t, last[3].x+markOut, last[1].x, 2*wordGrain, feed)
		require.InDelta(t, tr.TakeState(0, 2, 1e3).Pos, last[3].x, wordGrain, "%v: where the take has ended", feed)
	}
}

// around are the calls from the n-th by which the output is switched on, four of them.
func around(understood string, n int) (calls []string) {
	for line := range strings.Lines(understood) {
		_, call, ok := strings.Cut(line, "N..... ")
		if name, _, _ := strings.Cut(call, "("); ok {
			calls = append(calls, strings.TrimSpace(name))
		}
	}
	for i, c := range calls {
		if c == "FLOOD_ON" {
			if n == 0 {
				return calls[i:min(i+4, len(calls))]
			}
			n--
		}
	}
	return nil
}

// The reader must be able to tell a wrong program from a right one.
func TestReaderRefusesNonsense(t *testing.T) {
	if os.Getenv(readerVariable) == "" {
		t.Skipf("set %s=1 to read programs back with rs274", readerVariable)
	}
	file := filepath.Join(t.TempDir(), "bad.ngc")
	program := strings.Replace(text(t, sample.Still(t), gcode.Options{}), "G93\n", "G93\nG1 X41.000\n", 1)
	require.NoError(t, os.WriteFile(file, []byte(program), 0o600))
	require.Error(t, exec.Command("rs274", "-g", file).Run(), "G93 asks for an F word on every line")
}
