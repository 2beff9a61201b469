package drive_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// jogBoards are the ways in which controllers are moved by hand.
var jogBoards = []struct {
	name string
	kind rig.ControllerKind
	set  func(*rig.Controller)
	// After it has been told, or nothing more comes: how long it goes on before it
	// brakes, by its own jog what it has cut ahead and by what it was told beyond.
	told, alone time.Duration
}{
	{"a jog of its own", rig.Buffered, func(*rig.Controller) {}, 50 * time.Millisecond, 80 * time.Millisecond},
	{"short moves, buffered", rig.Buffered, func(c *rig.Controller) { c.JogLine = "" }, 20 * time.Millisecond, 20 * time.Millisecond},
	{"short moves", rig.Lockstep, func(*rig.Controller) {}, 20 * time.Millisecond, 20 * time.Millisecond},
	{"short moves, bytes", rig.Lockstep, func(c *rig.Controller) { c.Status, c.Hold, c.Resume, c.Abort = '?', '!', '~', 0x18 }, 20 * time.Millisecond, 20 * time.Millisecond},
	{"rows", rig.StepPlayer, func(*rig.Controller) {}, 20 * time.Millisecond, 20 * time.Millisecond},
}

// readyAt is when every kind of board has been greeted and read, and asks what next.
const readyAt = 8 * time.Second

// renewEvery is how often who holds a key says so, and renewFor for how long that goes.
const (
	renewEvery = 30 * time.Millisecond
	renewFor   = 100 * time.Millisecond
)

// jogRun is a run in which axes are held.
type jogRun struct {
	*machine
	world drive.World
	told  []drive.Jogged
}

// Jogged keeps what it is told.
func (j *jogRun) Jogged(x drive.Jogged) { j.told = append(j.told, x) }

func newJogRun(t testing.TB, kind rig.ControllerKind, set func(*rig.Controller), change func(o *virtual.Options)) *jogRun {
	tr := smooth(t, kind, 96)
	set(&tr.Plan().Rig.Controller)
	return jogOn(t, tr, change)
}

func jogOn(t testing.TB, tr *trajectory.Trajectory, change func(o *virtual.Options)) *jogRun {
	m := onVirtual(t, tr, 1, func(o *virtual.Options) {
		o.Axes[0].Place = tr.TakeState(0, 1, 0).Pos // where it is said to be
		if change != nil {
			change(o)
		}
	})
	m.options.Takes = 0
	j := &jogRun{machine: m, world: m.world}
	m.options.Observer = &struct {
		*witness
		drive.JogWatcher
	}{m.w, j}
	return j
}

func (j *jogRun) ask(at time.Duration, r drive.Request) {
	j.machine.world.Ask(virtual.Asking{At: at, Request: r})
}

// hold holds an axis from one time to another, by which it is renewed no more.
func (j *jogRun) hold(axis int, speed float64, from, to time.Duration) {
	for at := from; at < to; at += renewEvery {
		j.ask(at, drive.Request{Kind: drive.JogHold, Axis: axis, Speed: speed, For: min(renewFor, to-at)})
	}
}

// holdAndLet holds an axis until it is let go of.
func (j *jogRun) holdAndLet(axis int, speed float64, from, to time.Duration) {
	for at := from; at < to; at += renewEvery {
		j.ask(at, drive.Request{Kind: drive.JogHold, Axis: axis, Speed: speed, For: renewFor})
	}
	j.ask(to, drive.Request{Kind: drive.JogRelease})
}

// goes runs it until the operator leaves.
func (j *jogRun) goes(leaves time.Duration) drive.Result {
	j.ask(leaves, drive.Request{Kind: drive.Quit})
	r := drive.Run(j.world, j.options)
	j.rig.Advance(time.Second)
	return r
}

// at is where the axis was, as the rig counts.
func (j *jogRun) at(axis int, at time.Duration) float64 { return j.rig.Record().At(at.Seconds())[axis] }

// rested is when it moved last, and how fast it was at most within a while.
func (j *jogRun) rested(from, to time.Duration) (last time.Duration, fastest float64) {
	rec := j.rig.Record()
	for i := range rec.Len() {
		s := rec.Span(i)
		last = max(last, time.Duration(s.End*float64(time.Second)))
	}
	for ; from < to; from += 8 * time.Millisecond {
		fastest = max(fastest, math.Abs(j.at(0, from+16*time.Millisecond)-j.at(0, from))/0.016)
	}
	return last, fastest
}

// losing is a world whose wire is lost at a time.
type losing struct {
	*virtual.World
	at time.Time
}

func (w losing) Wait(until time.Time) drive.Event {
	if until.After(w.at) {
		until = w.at
	}
	if e := w.World.Wait(until); e.Kind != drive.Nothing || w.Now().Before(w.at) {
		return e
	}
	return drive.Event{Kind: drive.Gone, Err: errors.New("unplugged")}
}

func (w losing) Write(p []byte) (int, error) {
	if !w.Now().Before(w.at) {
		return 0, errors.New("unplugged")
	}
	return w.World.Write(p)
}

// tapped notes what is put on the wire of a world, and when it is across.
type tapped struct {
	drive.World
	rig   *virtual.Rig
	bytes []byte
	at    []time.Duration
}

func (w *tapped) Write(p []byte) (int, error) {
	waiting := w.rig.Stats().Written - w.rig.Stats().Received
	n, err := w.World.Write(p)
	for i, b := range p[:n] {
		w.bytes = append(w.bytes, b)
		w.at = append(w.at, w.rig.Now()+time.Duration(waiting+int64(i)+1)*10*time.Second/115200)
	}
	return n, err
}

// since is what was across after a time, and when the first byte of a kind was.
func (w *tapped) since(from time.Duration, kind byte) (text string, first time.Duration) {
	for i, at := range w.at {
		if at < from {
			continue
		}
		if text += string(w.bytes[i]); w.bytes[i] == kind && first == 0 {
			first = at
		}
	}
	return text, first
}

const (
	// toldWithin is what is promised of letting go.
	toldWithin = 20 * time.Millisecond
	// sliceEdge is what the slices of a board, and steps that are far apart, blur.
	sliceEdge = 12 * time.Millisecond
)

// ways are the ways in which a jog ends. Each arranges one at a time, and returns whether
// the board is told.
var ways = []struct {
	name string
	ends func(j *jogRun, speed float64, at time.Duration) (leaves time.Duration)
	told bool
}{
	{"let go of", func(j *jogRun, speed float64, at time.Duration) time.Duration {
		j.holdAndLet(0, speed, readyAt, at)
		return at + 3*time.Second
	}, true},
	{"not renewed", func(j *jogRun, speed float64, at time.Duration) time.Duration {
		j.hold(0, speed, readyAt, at)
		return at + 3*time.Second
	}, true},
	{"left", func(j *jogRun, speed float64, at time.Duration) time.Duration {
		j.hold(0, speed, readyAt, at)
		return at
	}, true},
	{"port lost", func(j *jogRun, speed float64, at time.Duration) time.Duration {
		j.hold(0, speed, readyAt, at)
		j.world = losing{j.machine.world, virtual.Epoch.Add(at)}
		return at + 3*time.Second
	}, false},
}

// Whatever ends a jog, whenever, on whatever board: it is told within 20 ms, and rests soon
// after, also where it cannot be told.
func TestVirtualJogsStop(t *testing.T) {
	const acceleration = 3000
	for _, b := range jogBoards {
		for _, way := range ways {
			var worst, told time.Duration
			var share [4]float64
			for n := range many.Times(8, 24) {
				speed := []float64{2, 8, 20, 40}[n%4]
				j := newJogRun(t, b.kind, b.set, nil)
				at := readyAt + 1100*time.Millisecond + time.Duration(n)*10_917*time.Microsecond
				leaves := way.ends(j, speed, at)
				tap := &tapped{World: j.world, rig: j.rig}
				j.world = tap
				r := j.goes(leaves)
				// A line may be on its way that was begun before.
				after, _ := tap.since(at+3*time.Millisecond, 0)
				for _, moves := range []string{"$J=", "G1 "} {
					require.NotContains(t, after, moves, "%s, %s: nothing that moves it is sent any more", b.name, way.name)
				}
				if b.name == jogBoards[0].name && way.told {
					ends := byte(0x85)
					if way.name == "left" { // whoever leaves holds all that moves
						ends = '!'
					}
					_, cancel := tap.since(at, ends)
					require.NotZero(t, cancel)
					require.Less(t, cancel-at, toldWithin)
					told = max(told, cancel-at)
				}
				require.True(t, way.told || after == "")
				require.True(t, r.Known || !way.told, "%s, %s: %v %v", b.name, way.name, r, j.w.said)
				last, fastest := j.rested(at-100*time.Millisecond, at)
				brakes := time.Duration(fastest / acceleration * float64(time.Second))
				limit := toldWithin + sliceEdge + brakes
				if way.told {
					limit += b.told
				} else {
					limit += b.alone
				}
				require.Greater(t, fastest, 1.0)
				require.Less(t, last-at, limit, "%s, %s at %g mm/s", b.name, way.name, speed)
				worst = max(worst, last-at-brakes)
				if way.told { // what is told before a key is pressed holds, and is no tenfold
					a := j.options.Trajectory.Axis(0)
					foretold := drive.JogRests(j.options.Trajectory.Rig().Controller, a)[n%4]
					gone := math.Abs(j.at(0, last) - j.at(0, at))
					require.LessOrEqual(t, gone, foretold.Way+2/a.StepsPerUnit.Float(), "%s, %s at %g mm/s", b.name, way.name, speed)
					require.Less(t, (last - at).Seconds(), foretold.Seconds+sliceEdge.Seconds(), "%s, %s at %g mm/s", b.name, way.name, speed)
					share[n%4] = max(share[n%4], gone/foretold.Way)
				}
				if r.Known {
					require.InDelta(t, j.at(0, last)+j.shift(), r.At[0], 0.02)
				}
			}
			if way.told && !testing.Short() { // which draws too few moments to meet a bad one
				require.Greater(t, slices.Max(share[:]), 0.5, "%s, %s: %.2f of what is foretold", b.name, way.name, share)
			}
			t.Logf("%-22s %-12s told within %v, begins to brake within %v", b.name, way.name, told.Round(100*time.Microsecond), worst.Round(100*time.Microsecond))
		}
	}
}

// It is slow at first and gets to the speed that was asked for within a second or so; what
// is reported on the way is where it is.
func TestVirtualJogsSwell(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.holdAndLet(0, 40, readyAt, readyAt+3*time.Second)
		r := j.goes(readyAt + 5*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		mean := func(from, to time.Duration) float64 {
			return (j.at(0, readyAt+to) - j.at(0, readyAt+from)) / (to - from).Seconds()
		}
		assert.InDelta(t, 1.5, mean(0, 200*time.Millisecond), 1.2, b.name)
		top := mean(1500*time.Millisecond, 2500*time.Millisecond)
		if strings.HasPrefix(b.name, "short") { // as fast as moves that short go
			assert.InDelta(t, 21, top, 2, b.name)
		} else {
			assert.InDelta(t, 40, top, 0.4, b.name)
		}
		for at, was := 100*time.Millisecond, 0.0; at < 1200*time.Millisecond; at += 100 * time.Millisecond {
			v := mean(at, at+100*time.Millisecond)
			assert.Greater(t, v, was-2, "%s at %v", b.name, at)
			assert.Less(t, v, was+11, "%s at %v", b.name, at)
			was = v
		}
		require.Greater(t, len(j.told), 15, b.name)
		end := j.told[len(j.told)-1]
		assert.False(t, end.Moving)
		assert.InDelta(t, r.At[0], end.At[0], 1e-9)
		assert.InDelta(t, end.At[0]-j.options.Trajectory.TakeState(0, 1, 0).Pos, end.Gone, 0.02)
	}
}

// No jog goes beyond the travel, and who holds the key on is told so once.
func TestVirtualJogsEndAtTheEnds(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.holdAndLet(0, -30, readyAt, readyAt+8*time.Second)
		j.holdAndLet(0, -2, readyAt+9*time.Second, readyAt+10*time.Second)
		j.holdAndLet(0, 8, readyAt+11*time.Second, readyAt+12*time.Second)
		r := j.goes(readyAt + 14*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		least := 1e9
		for at := readyAt; at < readyAt+10*time.Second; at += 10 * time.Millisecond {
			least = min(least, j.at(0, at)+j.shift())
		}
		assert.InDelta(t, 0, least, 0.013, "%s: as near as a step", b.name)
		assert.GreaterOrEqual(t, least, -0.0063, b.name)
		n := 0
		for _, s := range j.w.said {
			if strings.Contains(s, "stands at the end of its travel, 0.000 mm") {
				n++
			}
		}
		assert.Equal(t, 1, n, "%s: %v", b.name, j.w.said)
		assert.Greater(t, r.At[0], 2.0, b.name)
	}
}

// Where it is not known where the axis stands it is moved slowly, and a short way a press.
func TestVirtualJogsBlind(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.options.Settle = drive.AskOperator
		j.holdAndLet(0, 40, readyAt, readyAt+2*time.Second)
		j.holdAndLet(0, -40, readyAt+3*time.Second, readyAt+6*time.Second)
		r := j.goes(readyAt + 8*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		require.False(t, r.Known)
		_, fastest := j.rested(readyAt, readyAt+6*time.Second)
		assert.InDelta(t, 5, j.at(0, readyAt+2900*time.Millisecond)-j.at(0, readyAt), 0.02, b.name)
		assert.InDelta(t, -5, j.at(0, readyAt+7*time.Second)-j.at(0, readyAt+2900*time.Millisecond), 0.02, b.name)
		assert.Less(t, fastest, 14.0, "%s: 8 mm/s; short moves are quicker in their middle", b.name)
		for _, x := range j.told {
			assert.Nil(t, x.At)
		}
	}
}

// One axis moves at a time: another key, or another speed, begins when the first rests.
func TestVirtualJogsOneAtATime(t *testing.T) {
	tr := turning(t, 96)
	j := jogOn(t, tr, nil)
	j.hold(0, 20, readyAt, readyAt+time.Second)
	j.hold(1, -9, readyAt+1001*time.Millisecond, readyAt+2*time.Second)
	j.hold(1, 9, readyAt+2001*time.Millisecond, readyAt+3*time.Second)
	r := j.goes(readyAt + 5*time.Second)
	require.NoError(t, r.Err(), "%v", j.w.said)
	rec, moved := j.rig.Record(), [2]bool{}
	for i := range rec.Len() {
		s := rec.Span(i)
		a, b := s.From[0] != s.To[0], s.From[1] != s.To[1]
		require.False(t, a && b)
		moved[0], moved[1] = moved[0] || a, moved[1] || b
	}
	assert.Equal(t, [2]bool{true, true}, moved)
}

// A board that knows of a nearer end than the rig file takes no jog beyond it: that is
// said once, and where the axis stands is known.
func TestVirtualJogsRefused(t *testing.T) {
	j := newJogRun(t, rig.Buffered, func(*rig.Controller) {}, func(o *virtual.Options) {
		o.Names[rig.SoftLimits] = ""
		o.Set[rig.SoftLimits] = 1
		o.Axes[0].Min, o.Axes[0].Max = -400, 10
	})
	j.hold(0, 20, readyAt, readyAt+4*time.Second)
	r := j.goes(readyAt + 6*time.Second)
	require.NoError(t, r.Err(), "%v", j.w.said)
	require.True(t, r.Known)
	said := slices.DeleteFunc(slices.Clone(j.w.said), func(s string) bool { return !strings.Contains(s, "is not moved") })
	require.Len(t, said, 1)
	assert.Contains(t, said[0], `axis rail is not moved: error:15 on "$J=G91G21X`)
	assert.LessOrEqual(t, j.at(0, readyAt+5*time.Second), 10.0)
	assert.Greater(t, j.at(0, readyAt+5*time.Second), 8.0)
}

// A key whose repeats come a little too late is let go of and pressed again at once: the
// axis brakes then, and what the board does not take meanwhile ends nothing. It goes on as
// soon as it rests, and nobody is told of a refusal.
func TestVirtualJogsPressedAnewAtOnce(t *testing.T) {
	const (
		presses, late = 8, 3 * time.Millisecond
		begun         = 100 * time.Millisecond // before its end a press moves it that had to wait
		reads         = 0.003                  // s that the board is at a line while a byte ends the jog
	)
	for _, b := range jogBoards {
		refused := int64(0)
		for n := range many.Times(8, 60) {
			j := newJogRun(t, b.kind, b.set, func(o *virtual.Options) { o.LineSeconds = reads })
			at := readyAt
			lasts := 300*time.Millisecond + time.Duration(n)*1_713*time.Microsecond
			var pressed []time.Duration
			for i := range presses {
				pressed = append(pressed, at)
				j.ask(at, drive.Request{Kind: drive.JogHold, Axis: 0, Speed: []float64{8, 40}[n%2], For: lasts})
				at += lasts + late + time.Duration(i)*10_517*time.Microsecond
			}
			r := j.goes(at + 2*time.Second)
			require.NoError(t, r.Err(), "%s, %v: %v", b.name, lasts, j.w.said)
			require.True(t, r.Known, "%s, %v: %v", b.name, lasts, j.w.said)
			require.NotContains(t, strings.Join(j.w.said, "\n"), "is not moved", "%s, %v", b.name, lasts)
			for i, from := range pressed {
				require.Greater(t, j.at(0, from+lasts), j.at(0, from+lasts-begun), "%s, %v: press %d moves it", b.name, lasts, i)
			}
			require.InDelta(t, j.at(0, at+2*time.Second)+j.shift(), r.At[0], 0.02)
			refused += j.rig.Stats().Errors
		}
		if b.name == jogBoards[0].name && !testing.Short() {
			require.Positive(t, refused, "lines that came while it braked")
		}
	}
}

// stalling is a world that does nothing for a while at a time.
type stalling struct {
	*virtual.World
	rig  *virtual.Rig
	at   time.Time
	lets time.Duration
}

func (w *stalling) Wait(until time.Time) drive.Event {
	if !w.Now().Before(w.at) && w.lets > 0 {
		w.rig.Advance(w.lets)
		w.lets = 0
	}
	return w.World.Wait(until)
}

// A computer that is held up for longer than a board has of a jog: it rests meanwhile, and
// goes on. A player of rows stops at once, which is not taken for nothing.
func TestVirtualJogsOnABusyComputer(t *testing.T) {
	for _, b := range jogBoards {
		j := newJogRun(t, b.kind, b.set, nil)
		j.world = &stalling{j.machine.world, j.rig, virtual.Epoch.Add(readyAt + 1500*time.Millisecond), 400 * time.Millisecond}
		for at := readyAt; at < readyAt+3*time.Second; at += renewEvery {
			j.ask(at, drive.Request{Kind: drive.JogHold, Axis: 0, Speed: 20, For: 600 * time.Millisecond})
		}
		r := j.goes(readyAt + 6*time.Second)
		require.NoError(t, r.Err(), "%s: %v", b.name, j.w.said)
		stood := j.at(0, readyAt+1890*time.Millisecond) == j.at(0, readyAt+1700*time.Millisecond)
		assert.True(t, stood, b.name)
		assert.Equal(t, b.kind != rig.StepPlayer, r.Known, "%s: %v", b.name, j.w.said)
		if b.kind == rig.StepPlayer {
			assert.Contains(t, strings.Join(j.w.said, "\n"), "it ran out of rows")
			l, err := logged(j.log.Bytes())
			require.NoError(t, err)
			assert.False(t, l.Known)
		}
	}
}
