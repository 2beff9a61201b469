package drive_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// harbour is what all storms of a kind of controller share.
type harbour struct {
	kind   rig.ControllerKind
	tr     *trajectory.Trajectory
	source func() drive.Source
	lamp   rig.Output
	walk   *drive.Walk
	frames *trajectory.Trajectory // of a shot that is taken frame by frame
	steps  [stormWays]int         // of a run of each way in which nothing happens
}

// The ways in which runs of storms go, by their seeds.
const (
	stormTake   = iota // a take at once
	stormJog           // one after a jog
	stormPoses         // one after two poses
	stormMarks         // one between two marks
	stormWalk          // one after a walk through the plan
	stormFrames        // one frame by frame
	stormWays
)

// wayOf is the way of a seed.
func wayOf(seed uint64) uint64 { return seed / 3 % stormWays }

// stormStills is a shot of a few frames, with a shutter that is held open.
var stormStills = strings.NewReplacer("12 frames", "4 frames", "card = \"0.25 s\"", "shutter = \"bulb\"").Replace(stills)

const stormRounds = 2

func newHarbour(t testing.TB, kind rig.ControllerKind) *harbour {
	tr := smooth(t, kind, 36)
	tr.Plan().Rig.Controller.Status = '?'
	h := &harbour{kind: kind, tr: tr, lamp: lit(tr)}
	if kind != rig.StepPlayer {
		take := chosen(t, tr, stormRounds)
		h.source = func() drive.Source { return program.New(tr, take) }
	}
	slow := trajectory.New(tr.Plan().Slowed(exact.Int(3)))
	h.walk, h.frames = &drive.Walk{Trajectory: slow, Words: "slowly"}, framed(t, kind, stormStills)
	h.frames.Plan().Rig.Controller.Status = '?'
	if kind != rig.StepPlayer {
		take := chosen(t, slow, 1)
		h.walk.Source = func() drive.Source { return program.New(slow, take) }
	}
	for way := range h.steps {
		calm := h.run(t, nil, 3*uint64(way))
		require.NoError(t, calm.result.Err())
		require.Empty(t, calm.broken)
		h.steps[way] = calm.step
	}
	return h
}

// outcome is a storm that is over, and what it broke.
type outcome struct {
	*storm
	result drive.Result
	broken []string
}

// run goes through a storm.
func (h *harbour) run(t testing.TB, strokes script, seed uint64) outcome {
	s := &storm{drawn: strokes, rng: rand.New(rand.NewPCG(seed, 1)), strokes: map[int][]string{}}
	for _, x := range strokes {
		if !strings.HasPrefix(x.kind, "board") {
			s.strokes[x.at] = append(s.strokes[x.at], x.kind)
		}
	}
	tr, source, rounds := h.tr, h.source, int64(stormRounds)
	if wayOf(seed) == stormFrames {
		tr, source, rounds = h.frames, nil, 1
	}
	s.machine = onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) { o.Faults, o.HoldsIdle = strokes.ofBoard(), seed%2 == 1 })
	s.options.Log = takelog.NewWriter(stormDisk{s}, nil)
	switch wayOf(seed) {
	case stormJog: // somebody is there, who moves it by hand first
		s.options.Takes = 0
		s.w.script = []cue{
			{drive.Ready, 100 * time.Millisecond, drive.Request{Kind: drive.JogHold, Speed: 30, For: 700 * time.Millisecond}},
			{drive.Ready, 500 * time.Millisecond, drive.Request{Kind: drive.JogHold, Speed: 30, For: 700 * time.Millisecond}},
			{drive.Ready, 2 * time.Second, drive.Request{Kind: drive.Go}},
		}
	case stormPoses: // who has frames shown first
		s.options.Takes = 0
		s.w.script = []cue{
			{drive.Ready, 100 * time.Millisecond, drive.Request{Kind: drive.Pose, Frame: float64(h.tr.Captured() / 2)}},
			{drive.Ready, 3 * time.Second, drive.Request{Kind: drive.Pose, Frame: 1}},
			{drive.Ready, 6 * time.Second, drive.Request{Kind: drive.Go}},
		}
	case stormMarks: // a lamp tells the camera when it is
		s.options.Outputs = []rig.Output{h.lamp}
		s.options.Sync = &drive.SyncMark{Name: "lamp", Output: &h.lamp, Length: 0.2, Before: 1, After: 0.5}
	case stormWalk:
		s.options.Takes = 0
		s.w.script = []cue{
			{drive.Ready, 100 * time.Millisecond, drive.Request{Kind: drive.WalkThrough, Walk: h.walk}},
			{drive.Ready, 12 * time.Second, drive.Request{Kind: drive.Go}},
		}
	case stormFrames:
		s.frameByFrame(tr)
	}
	// Who is asked, and has left, leaves.
	for at := 60 * time.Second; at < 63*time.Second; at += time.Second {
		s.world.Ask(virtual.Asking{At: at, Request: drive.Request{Kind: drive.Quit}})
	}
	o := outcome{storm: s}
	over := make(chan struct{})
	go func() { // so that what panics is told as a broken promise
		defer close(over)
		defer func() {
			if p := recover(); p != nil {
				o.broken = append(o.broken, fmt.Sprintf("it panicked: %v", p))
			}
		}()
		o.result = drive.Run(s, s.options)
		o.broken = append(o.broken, o.promises(h)...)
	}()
	<-over
	return o
}

const (
	// longestStorm is far more than any run takes: every wait has an end.
	longestStorm = 3 * time.Minute
	// stormStop is how long after the end of a run something may move, s: where the
	// wire was there to the last, nothing.
	stormStop = 0.01
	// stormOff is how far a finished take may have been from the plan at a captured
	// frame, mm, within what its time may be out.
	stormOff = 0.5
)

// promises are what a run has not kept of what it promises.
func (o *outcome) promises(h *harbour) (broken []string) {
	breaks := func(format string, args ...any) { broken = append(broken, fmt.Sprintf(format, args...)) }
	if o.rig.Now() > longestStorm {
		breaks("it took %v", o.rig.Now())
	}
	l, err := logged(o.log.Bytes())
	switch {
	case err != nil:
		breaks("the log cannot be read: %v", err)
	case l.Torn > 0 && !o.torn:
		breaks("%d lines of the log are torn, and no write was", l.Torn)
	case l.Known && !o.result.Known && o.disk == nil: // what was written before the disk failed is true: nothing moves after that
		breaks("the log takes a position for known that is not")
	case o.result.Known && o.result.End.Fault():
		breaks("position is known after %v", o.result.End)
	}
	takes := slices.DeleteFunc(slices.Clone(o.w.passes), func(p drive.Pass) bool { return p.Walk })
	if o.disk == nil && len(l.Takes) != len(takes) {
		breaks("%d takes, and %d in the log", len(takes), len(l.Takes))
	}
	for i, take := range l.Takes {
		if take.Cut && o.disk == nil {
			breaks("the log does not tell how take %d ended", take.Number)
		}
		if i < len(takes) && !take.Cut && take.End.Outcome != takes[i].End.String() {
			breaks("the log has take %d as %q, and it was %v", take.Number, take.End.Outcome, takes[i].End)
		}
	}
	if o.options.Frames == nil {
		o.asFilmed(h, breaks)
	} else {
		o.asExposed(breaks)
	}
	o.atRest(h, breaks)
	return broken
}

// asFilmed holds each pass that is called finished against where the rail was.
func (o *outcome) asFilmed(h *harbour, breaks func(string, ...any)) {
	rec := o.rig.Record()
	for i, p := range o.w.passes {
		if p.End != drive.Finished || p.Held || p.Rounds == 0 {
			continue
		}
		tr := h.tr
		if p.Walk {
			tr = h.walk.Trajectory
		}
		begins, ends := o.between(p)
		if lasts := ends - begins; math.Abs(lasts-p.Planned) > 0.3+p.Uncertainty {
			breaks("pass %d is called finished, took %.3f s and should have taken %.3f", i, lasts, p.Planned)
			continue
		}
		for k := range tr.Captured() * p.Rounds {
			f := tr.Frame(k)
			x := rec.At(begins + f.Seconds.Float())[0] + o.shift()
			low, high := math.Inf(1), math.Inf(-1)
			for d := -0.3; d <= 0.3; d += 0.01 {
				at := tr.TakeState(0, p.Rounds, f.Seconds.Float()+d).Pos
				low, high = min(low, at), max(high, at)
			}
			if x < low-stormOff || x > high+stormOff {
				breaks("pass %d is called finished, and at frame %d the rail was at %.3f mm, planned %.3f", i, k, x, f.States[0].Pos)
				return
			}
		}
	}
}

// asExposed holds each frame of a take frame by frame against where the axes were: none moves
// while one is exposed, and of a pass that is called finished each was, once, at its place.
func (o *outcome) asExposed(breaks func(string, ...any)) {
	rec, s := o.rig.Record(), o.options.Frames
	open := s.ByFrame().Exposure.Float()
	for _, p := range o.w.passes {
		from, to := p.Began.Sub(virtual.Epoch).Seconds(), p.Ended.Sub(virtual.Epoch).Seconds()
		on := slices.DeleteFunc(o.exposed(), func(sec float64) bool { return sec < from || sec > to })
		for _, sec := range on {
			if before, after := rec.At(sec), rec.At(min(sec+open, to)); before[0] != after[0] || before[1] != after[1] {
				breaks("at %.3f s a frame was exposed while an axis moved", sec)
			}
		}
		if p.End != drive.Finished {
			continue
		}
		if int64(len(on)) != p.Frames {
			breaks("%d frames are called exposed, and %d were", p.Frames, len(on))
			continue
		}
		for n, sec := range on {
			for i := range 2 {
				if want, is := s.Place(i, int64(n)), o.where(i, sec); math.Abs(is-want) > 0.5/80 {
					breaks("frame %d found axis %d at %.3f, planned %.3f", n, i, is, want)
				}
			}
		}
	}
}

// between is when the motion of a pass began and ended, s since the board was powered.
func (o *outcome) between(p drive.Pass) (begins, ends float64) {
	rec := o.rig.Record()
	from, to := p.Began.Sub(virtual.Epoch).Seconds(), p.Ended.Sub(virtual.Epoch).Seconds()
	begins = math.Inf(1)
	for i := range rec.Len() {
		if s := rec.Span(i); s.Start >= from && s.Start < to {
			begins, ends = min(begins, s.Start), max(ends, s.End)
		}
	}
	return begins, ends
}

// atRest holds the end of the run against what the rig does after it, and position
// that is known against where it is.
func (o *outcome) atRest(h *harbour, breaks func(string, ...any)) {
	end := o.rig.Now()
	o.rig.Advance(20 * time.Second)
	rec := o.rig.Record()
	wired := o.gone == nil && !slices.ContainsFunc(o.drawn, func(x stroke) bool { return x.kind == "board-silent" }) && o.result.End != drive.Silent && o.result.End != drive.Garbled
	last := 0.0
	for i := range rec.Len() {
		last = max(last, rec.Span(i).End)
	}
	if over := last - end.Seconds(); wired && over > stormStop && o.canHold(h) {
		breaks("it moved on for %.3f s after the end, %v", over, o.result.End)
	}
	told := slices.ContainsFunc(o.w.said, func(s string) bool { return strings.Contains(s, "may still be on") })
	if lit := o.rig.Lit(); wired && !told && len(lit) > 0 {
		breaks("%v is on after the end, %v, and nobody was told", lit, o.result.End)
	}
	if o.result.Known {
		at := o.rig.Place()[0] + h.tr.TakeState(0, 1, 0).Pos // where it was powered it was at the start
		if off := math.Abs(at - o.result.At[0]); off > 0.2 {
			breaks("position is called known at %.3f mm, and the rail is at %.3f", o.result.At[0], at)
		}
	}
}

// canHold tells whether the controller can be stopped on the way.
func (o *outcome) canHold(h *harbour) bool {
	return h.kind == rig.StepPlayer || h.tr.Rig().Controller.Hold != 0
}

// draw makes a script of a few strokes.
func (h *harbour) draw(seed uint64) (out script) {
	rng := rand.New(rand.NewPCG(seed, 2))
	all := [][]string{writeStrokes, readStrokes, readStrokes, clockStrokes, askStrokes, diskStrokes, boardStrokes}
	if h.kind == rig.StepPlayer {
		all = append(all, frameStrokes)
	}
	for range 1 + rng.IntN(4) {
		kinds := all[rng.IntN(len(all))]
		x := stroke{rng.IntN(h.steps[wayOf(seed)]), kinds[rng.IntN(len(kinds))]}
		if strings.HasPrefix(x.kind, "board") {
			x.at = rng.IntN(9000)
		}
		out = append(out, x)
	}
	return out
}

// shrink leaves out strokes as long as something is still broken.
func (h *harbour) shrink(t testing.TB, s script, seed uint64, broken func(outcome) bool) script {
	for i := 0; i < len(s); {
		less := slices.Delete(slices.Clone(s), i, i+1)
		if broken(h.run(t, less, seed)) {
			s, i = less, 0
			continue
		}
		i++
	}
	return s
}

// stormNumber is a number of the environment, or what does for a short test.
func stormNumber(name string, short int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil && n > 0 {
		return n
	}
	return short
}

// Whatever fails, at whatever step: a run ends, in bounded time, without a panic; the
// log can be read and tells each pass as it was; none is called finished whose frames
// were elsewhere; no position is called known that is not; and nothing moves after it, nor
// is any output left on that nobody is told of.
//
// SEAMRAIL_STORM="buffered 17 812:write-none 2400:board-alarm" runs one again.
func TestStorms(t *testing.T) {
	harbours := map[string]*harbour{}
	for _, kind := range rig.DrivenKinds() {
		harbours[kind.String()] = newHarbour(t, kind)
	}
	if again := os.Getenv("SEAMRAIL_STORM"); again != "" {
		stormAgain(t, harbours, again)
		return
	}
	seed := uint64(20260314)
	if n, err := strconv.ParseUint(os.Getenv("SEAMRAIL_STORM_SEED"), 10, 64); err == nil {
		seed = n
	}
	t.Logf("seeds from %d", seed)
	names := []string{rig.Buffered.String(), rig.Lockstep.String(), rig.StepPlayer.String()}
	var all weather
	for ; all.steps < stormNumber("SEAMRAIL_STORM_STEPS", 200_000); seed++ {
		h := harbours[names[int(seed%uint64(len(names)))]]
		all.add(t, h, h.draw(seed), seed)
	}
	t.Log(&all)
}

// Each fault at each step of a run in which nothing else happens, or in short at every
// so many steps.
func TestStormsSweep(t *testing.T) {
	many.Long(t)
	every := stormNumber("SEAMRAIL_STORM_EVERY", 411)
	kinds := slices.Concat(writeStrokes, readStrokes, clockStrokes, askStrokes[1:], diskStrokes)
	var all weather
	for _, kind := range rig.DrivenKinds() {
		h := newHarbour(t, kind)
		if kind == rig.StepPlayer {
			kinds = append(kinds, frameStrokes...)
		}
		for i, k := range kinds {
			for at := 1 + i%every; at <= slices.Max(h.steps[:]); at += every {
				all.add(t, h, script{{at, k}}, uint64(at))
			}
		}
	}
	t.Logf("every %d steps: %v", every, &all)
}

// weather is what many storms came to.
type weather struct {
	steps, runs, failures int
	ends, struck          map[string]int
}

// maxFailures is how many scripts that break a promise are shrunk and told.
const maxFailures = 5

// add runs a script, and tells what it breaks as a shorter one.
func (w *weather) add(t *testing.T, h *harbour, s script, seed uint64) {
	if w.ends == nil {
		w.ends, w.struck = map[string]int{}, map[string]int{}
	}
	o := h.run(t, s, seed)
	w.steps, w.runs = w.steps+o.step, w.runs+1
	w.ends[o.result.End.String()]++
	for _, k := range o.struck {
		w.struck[k]++
	}
	for _, x := range s {
		if strings.HasPrefix(x.kind, "board") {
			w.struck[x.kind]++
		}
	}
	if len(o.broken) == 0 {
		return
	}
	s = h.shrink(t, s, seed, func(o outcome) bool { return len(o.broken) > 0 })
	t.Errorf("SEAMRAIL_STORM=%q\n\t%v %s\n\t%s", fmt.Sprintf("%v %d %v", h.kind, seed, s), o.result.End, o.result.Detail,
		strings.Join(h.run(t, s, seed).broken, "\n\t"))
	if w.failures++; w.failures == maxFailures {
		t.FailNow()
	}
}

func (w *weather) String() string {
	return fmt.Sprintf("%d runs, %d steps; ends %v; struck %v", w.runs, w.steps, counts(w.ends), counts(w.struck))
}

func stormAgain(t *testing.T, harbours map[string]*harbour, text string) {
	kind, rest, _ := strings.Cut(text, " ")
	number, strokes, _ := strings.Cut(rest, " ")
	seed, err := strconv.ParseUint(number, 10, 64)
	require.NoError(t, err)
	s, err := parseScript(strokes)
	require.NoError(t, err)
	require.Contains(t, harbours, kind)
	o := harbours[kind].run(t, s, seed)
	for _, p := range o.w.passes {
		t.Logf("%+v", p)
	}
	t.Logf("%v: %s; struck %v; states %v; said %q", o.result.End, o.result.Detail, o.struck, o.w.states, o.w.said)
	require.Empty(t, o.broken)
}

func counts(m map[string]int) (out []string) {
	for k, n := range m {
		out = append(out, fmt.Sprintf("%s %d", k, n))
	}
	sort.Strings(out)
	return out
}

// A script is left with what breaks the promise, and says the same when it is read
// back.
func TestStormsShrink(t *testing.T) {
	h := newHarbour(t, rig.Buffered)
	long := script{{30, "read-late"}, {400, "ask-stop"}, {500, "write-one"}, {3100, "board-alarm"}, {700, "ask-mark"}}
	alarmed := func(o outcome) bool { return o.result.End == drive.Alarmed }
	require.True(t, alarmed(h.run(t, script{{3100, "board-alarm"}}, 1)))
	require.Equal(t, script{{3100, "board-alarm"}}, h.shrink(t, script{long[0], long[2], long[3], long[4]}, 1, alarmed))
	again, err := parseScript(long.String())
	require.NoError(t, err)
	require.Equal(t, long, again)
	first, second := h.run(t, long, 5), h.run(t, long, 5)
	require.Equal(t, first.log.String(), second.log.String(), "the same seed is the same run")
	require.Equal(t, first.step, second.step)
}

// TestWhatAStormComesOver: with no fault each kind does what its runs are for, and keeps its
// promises: a take at once, one after a jog, after two poses or after a walk, one between two marks, and
// one frame by frame.
func TestWhatAStormComesOver(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		h := newHarbour(t, kind)
		for way := range uint64(stormWays) {
			o := h.run(t, nil, 3*way)
			require.NoError(t, o.result.Err(), "%v %d: %v", kind, way, o.w.said)
			require.Empty(t, o.broken, "%v %d", kind, way)
			require.Len(t, o.w.passes, 1+map[uint64]int{stormWalk: 1}[way], "%v %d: %v", kind, way, o.w.said)
			for _, p := range o.w.passes {
				require.Equal(t, drive.Finished, p.End)
			}
			require.Equal(t, way == stormPoses, slices.Contains(o.w.states, drive.Posing), "%v %d", kind, way)
			require.Len(t, o.rig.Record().Switches(), map[uint64]int{stormMarks: 4, stormFrames: 8}[way], "%v %d: on and off, twice or a frame", kind, way)
		}
	}
}
