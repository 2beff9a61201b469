package drive_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/virtual"
	"seamrail/motion/ontime"
	"seamrail/motion/rig"
	"seamrail/motion/words"
)

// sickWorld is a rig of software with something between it and the host that makes
// of the two a controller which does not do, or does not tell, what it should. It is
// well until the take begins.
type sickWorld struct {
	*virtual.World
	rig   *virtual.Rig
	since time.Duration // the take began; < 0 = not yet

	line  func(w *sickWorld, text string) string       // what the board reads instead
	told  func(w *sickWorld, text string) string       // what the host reads instead; "" = nothing
	frame func(w *sickWorld, f *stepplayer.Frame) bool // false = it is lost
	row   func(w *sickWorld, f *stepplayer.Frame)      // to the board
	up    bytes.Buffer                                 // a line of the host
	down  bytes.Buffer                                 // and one of the board
	rows  stepplayer.Reader                            // of the host
	heard stepplayer.Reader                            // of the board
}

// in is how long the take has been going on, s.
func (w *sickWorld) in() float64 {
	if w.since < 0 {
		return -1
	}
	return (w.rig.Now() - w.since).Seconds()
}

func (w *sickWorld) Write(p []byte) (int, error) {
	switch {
	case w.row != nil:
		w.rows.Add(p)
		for f, ok := w.rows.Next(); ok; f, ok = w.rows.Next() {
			if w.since >= 0 {
				w.row(w, &f)
			}
			_, _ = w.World.Write(f.Append(nil))
		}
	case w.line != nil:
		for _, c := range p {
			switch {
			case c == '?' || c == '!' || c == '~' || c == 0x18:
				_, _ = w.World.Write([]byte{c})
			case c != '\n':
				w.up.WriteByte(c)
			default:
				text := w.up.String()
				w.up.Reset()
				if w.since >= 0 {
					text = w.line(w, text)
				}
				_, _ = w.World.Write([]byte(text + "\n"))
			}
		}
	default:
		return w.World.Write(p)
	}
	return len(p), nil
}

func (w *sickWorld) Wait(until time.Time) drive.Event {
	e := w.World.Wait(until)
	if e.Kind != drive.Heard {
		return e
	}
	var out []byte
	switch {
	case w.frame != nil:
		w.heard.Add(e.Bytes)
		for f, ok := w.heard.Next(); ok; f, ok = w.heard.Next() {
			if w.since < 0 || w.frame(w, &f) {
				out = f.Append(out)
			}
		}
	case w.told != nil:
		for _, c := range e.Bytes {
			w.down.WriteByte(c)
			if c != '\n' {
				continue
			}
			text := strings.TrimRight(w.down.String(), "\r\n")
			w.down.Reset()
			if w.since >= 0 {
				text = w.told(w, text)
			}
			if text != "" {
				out = append(out, text+"\r\n"...)
			}
		}
	default:
		return e
	}
	e.Bytes = out
	return e
}

// sickness is one way to be sick, drawn from a source of numbers.
type sickness struct {
	name string
	make func(rng *rand.Rand, w *sickWorld, o *virtual.Options) string
}

var reported = regexp.MustCompile(`([MW]Pos:)(-?[0-9.]+)`)

// places rewrites the first axis of each report.
func places(text string, f func(x float64) float64) string {
	if !strings.HasPrefix(text, "<") {
		return text
	}
	return reported.ReplaceAllStringFunc(text, func(s string) string {
		name, number, _ := strings.Cut(s, ":")
		x, _ := strconv.ParseFloat(number, 64)
		return name + ":" + strconv.FormatFloat(f(x), 'f', 3, 64)
	})
}

// inverse is a block of a take, in the time it is told in.
var inverse = regexp.MustCompile(`^G1 .*F([0-9.]+)$`)

// pace is a factor of speed that no clock has.
func pace(rng *rand.Rand) float64 {
	return []float64{0.25, 1. / 3, 0.5, 0.7, 1.4, 2, 3}[rng.IntN(7)]
}

// early is when it falls ill, s into the take: in its first half, while it moves.
func early(rng *rand.Rand, w *sickWorld) float64 { return 1 + 3*rng.Float64() }

// wander is mm added to a place: a millimetre at least, for half a second at least.
func wander(rng *rand.Rand) (f func(sec float64) float64, name string) {
	wide, hertz, from := 1+20*rng.Float64(), 0.2+3*rng.Float64(), 0.6+2*rng.Float64()
	return func(sec float64) float64 {
		if sec < from {
			return 0
		}
		return wide * math.Sin(2*math.Pi*hertz*(sec-from))
	}, fmt.Sprintf("%.1f mm at %.1f Hz from %.1f s", wide, hertz, from)
}

// ofWords are those of controllers that read words.
var ofWords = []sickness{
	{"another speed", func(rng *rand.Rand, _ *sickWorld, o *virtual.Options) string {
		f := pace(rng)
		o.ClockError = 1/f - 1
		return fmt.Sprintf("x %.2f", f)
	}},
	{"answers, and does not move", func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.line = func(_ *sickWorld, text string) string {
			if inverse.MatchString(text) {
				return "G90"
			}
			return text
		}
		return ""
	}},
	{"dwells instead", func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.line = func(_ *sickWorld, text string) string {
			if m := inverse.FindStringSubmatch(text); m != nil {
				f, _ := strconv.ParseFloat(m[1], 64)
				return fmt.Sprintf("G4 P%.6f", 60/f)
			}
			return text
		}
		return ""
	}},
	{"leaves blocks out", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		share := 0.3 + 0.6*rng.Float64()
		w.line = func(_ *sickWorld, text string) string {
			if inverse.MatchString(text) && rng.Float64() < share {
				return "G90"
			}
			return text
		}
		return fmt.Sprintf("%.0f %%", share*100)
	}},
	{"reports one place", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		from, at := 0.5+2*rng.Float64(), math.NaN()
		w.told = func(w *sickWorld, text string) string {
			return places(text, func(x float64) float64 {
				if w.in() > from && math.IsNaN(at) {
					at = x
				}
				if w.in() > from {
					return at
				}
				return x
			})
		}
		return fmt.Sprintf("from %.2f s", from)
	}},
	{"reports another scale", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		f := []float64{-1, 0.1, 0.5, 0.9, 1.1, 2, 25.4}[rng.IntN(7)]
		w.told = func(_ *sickWorld, text string) string { return places(text, func(x float64) float64 { return f * x }) }
		return fmt.Sprintf("x %g", f)
	}},
	{"wanders", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		f, name := wander(rng)
		w.told = func(w *sickWorld, text string) string {
			return places(text, func(x float64) float64 { return x + f(w.in()) })
		}
		return name
	}},
	{"moves half as far", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		f := 0.2 + 0.7*rng.Float64()
		word := regexp.MustCompile(`X(-?[0-9.]+)`)
		w.line = func(_ *sickWorld, text string) string {
			if !inverse.MatchString(text) {
				return text
			}
			return word.ReplaceAllStringFunc(text, func(s string) string {
				x, _ := strconv.ParseFloat(s[1:], 64)
				return fmt.Sprintf("X%.3f", 40+f*(x-40))
			})
		}
		return fmt.Sprintf("x %.2f", f)
	}},
	{"reports a state it has not", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		state, from := []string{"Hold:0", "Door:1", "Check", "Sleep", "Tea"}[rng.IntN(5)], early(rng, w)
		w.told = func(w *sickWorld, text string) string {
			if w.in() > from {
				text = regexp.MustCompile("^<[A-Za-z]+").ReplaceAllString(text, "<"+state)
			}
			return text
		}
		return fmt.Sprintf("%s from %.2f s", state, from)
	}},
	{"stops reporting", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		from := early(rng, w)
		w.told = func(w *sickWorld, text string) string {
			if w.in() > from && strings.HasPrefix(text, "<") {
				return ""
			}
			return text
		}
		return fmt.Sprintf("from %.2f s", from)
	}},
	{"answers all at once", func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.line = func(_ *sickWorld, text string) string {
			if strings.HasPrefix(text, "G1") || strings.HasPrefix(text, "G4") {
				return "G90"
			}
			return text
		}
		return ""
	}},
}

// status rewrites the statuses of a player.
func statusOf(w *sickWorld, f *stepplayer.Frame, change func(s *stepplayer.Status)) bool {
	if f.Type == stepplayer.StatusNow {
		if s, err := stepplayer.ReadStatus(f.Payload); err == nil {
			change(&s)
			f.Payload = s.Tell()
		}
	}
	return true
}

// ofRows are those of step players.
var ofRows = []sickness{
	{"another speed", func(rng *rand.Rand, _ *sickWorld, o *virtual.Options) string {
		f := pace(rng)
		o.ClockError = 1/f - 1
		return fmt.Sprintf("x %.2f", f)
	}},
	{"a state", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		state, from := []stepplayer.State{8, 0, 3, 255, 1, 4}[rng.IntN(6)], early(rng, w)
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) {
				if w.in() > from {
					s.State = state
				}
			})
		}
		return fmt.Sprintf("%d from %.2f s", state, from)
	}},
	{"ends before it begins", func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) {
				if s.State == stepplayer.Playing {
					s.State = stepplayer.Ended
				}
			})
		}
		return ""
	}},
	{"rows stand still", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		from := early(rng, w)
		var at uint32
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) {
				if w.in() < from {
					at = s.Played
				}
				s.Played = at
			})
		}
		return fmt.Sprintf("from %.2f s", from)
	}},
	{"rows of another scale", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		x := pace(rng)
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) { s.Played = uint32(float64(s.Played) * x) })
		}
		return fmt.Sprintf("x %.2f", x)
	}},
	{"steps stand still", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		from, at := 0.5+2*rng.Float64(), int32(-1)
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) {
				if w.in() < from || at < 0 {
					at = s.Steps[0]
				}
				s.Steps[0] = at
			})
		}
		return fmt.Sprintf("from %.2f s", from)
	}},
	{"wanders", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		by, name := wander(rng)
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) { s.Steps[0] += int32(80 * by(w.in())) })
		}
		return name
	}},
	{"does not move", func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.row = func(_ *sickWorld, f *stepplayer.Frame) {
			if f.Type == stepplayer.Rows {
				clear(f.Payload)
			}
		}
		return ""
	}},
	{"has more room than it stores", func(rng *rand.Rand, w *sickWorld, _ *virtual.Options) string {
		w.frame = func(w *sickWorld, f *stepplayer.Frame) bool {
			return statusOf(w, f, func(s *stepplayer.Status) { s.Room = 2000 + rng.IntN(60_000) })
		}
		return ""
	}},
}

// sickTakes is how many sick controllers are tried.
const sickTakes = 240

// No take of a controller that does not do what it was told, or does not tell what
// it does, is called good: it ends as a fault in bounded time, with position unknown.
func TestNoSickControllerIsCalledGood(t *testing.T) {
	kinds := []rig.ControllerKind{rig.Buffered, rig.Lockstep, rig.StepPlayer}
	takes := map[string]func(*rand.Rand, sickness) (*machine, *sickWorld, string){}
	for _, kind := range kinds {
		for _, frames := range []int64{24, 96} {
			takes[fmt.Sprint(kind, frames)] = sickTake(t, kind, frames)
		}
	}
	ends := map[string]int{}
	for n := range sickTakes {
		rng := rand.New(rand.NewPCG(13, uint64(n)))
		kind := kinds[n%len(kinds)]
		all := ofWords
		if kind == rig.StepPlayer {
			all = ofRows
		}
		ill := all[(n/len(kinds))%len(all)]
		m, w, how := takes[fmt.Sprint(kind, []int64{24, 96}[rng.IntN(2)])](rng, ill)
		r := drive.Run(w, m.options)
		name := fmt.Sprintf("%d: %v %s %s: %v %s", n, kind, ill.name, how, r.End, r.Detail)
		require.True(t, r.End.Fault(), name)
		require.False(t, r.Known, name)
		for _, take := range m.read().Takes {
			require.NotEqual(t, "finished", take.End.Outcome, name)
			require.False(t, take.End.Known, name)
		}
		require.Less(t, m.rig.Now(), 2*time.Minute, name)
		ends[r.End.String()]++
	}
	t.Logf("%d sick controllers, none called good: %v", sickTakes, ends)
}

// sickTake makes takes of rounds of so many frames, six seconds of them.
func sickTake(t *testing.T, kind rig.ControllerKind, frames int64) func(*rand.Rand, sickness) (*machine, *sickWorld, string) {
	tr := smooth(t, kind, frames)
	tr.Plan().Rig.Controller.Status = '?' // one that tells nothing of where it stands is believed what it answers
	rounds := 6 * 24 / frames
	var chosen ontime.Chosen
	var source func() drive.Source
	if kind != rig.StepPlayer {
		var err error
		chosen, err = ontime.Choose(tr, rounds)
		require.NoError(t, err)
		source = func() drive.Source { return program{words.New(tr, chosen.Take)} }
	}
	return func(rng *rand.Rand, s sickness) (*machine, *sickWorld, string) {
		w := &sickWorld{since: -1}
		var how string
		m := onVirtualWith(t, tr, rounds, source, func(o *virtual.Options) { how = s.make(rng, w, o) })
		if x := chosen.Expected; kind != rig.StepPlayer {
			m.options.Foretold = func(n int64) float64 { return x.Executed + float64(n-x.Rounds)*x.RoundExecuted }
		}
		w.World, w.rig = m.world, m.rig
		m.w.entered = func(s drive.State) {
			if s == drive.Running {
				w.since = m.rig.Now()
			}
		}
		return m, w, how
	}
}

// The same between, with nothing wrong, is well.
func TestAWellControllerIsCalledGood(t *testing.T) {
	for _, kind := range []rig.ControllerKind{rig.Buffered, rig.Lockstep, rig.StepPlayer} {
		for _, frames := range []int64{24, 96} {
			well := sickness{make: func(_ *rand.Rand, w *sickWorld, _ *virtual.Options) string {
				if kind == rig.StepPlayer {
					w.frame = func(*sickWorld, *stepplayer.Frame) bool { return true }
					w.row = func(*sickWorld, *stepplayer.Frame) {}
					return ""
				}
				w.line = func(_ *sickWorld, text string) string { return text }
				w.told = w.line
				return ""
			}}
			m, w, _ := sickTake(t, kind, frames)(nil, well)
			r := drive.Run(w, m.options)
			require.NoError(t, r.Err(), "%v %d", kind, frames)
		}
	}
}
