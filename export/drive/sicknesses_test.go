package drive_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"

	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/virtual"
)

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
