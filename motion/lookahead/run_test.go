package lookahead_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/lookahead"
)

// plain is a planner of one axis, exact in its pace.
func plain(acc float64, blocks int) lookahead.Planner {
	p := board(acc, 80, blocks)
	p.Pace, p.Slowest = nil, 0
	return p
}

func last(m *lookahead.Motion) float64 { return m.Ends[len(m.Ends)-1] }

// From rest to rest over d at acceleration a: d/v + v/a where the speed v is
// reached, else 2*sqrt(d/a) (uniformly accelerated motion, any mechanics
// textbook).
func TestASingleMoveIsATrapezoid(t *testing.T) {
	for _, c := range []struct{ mm, v, want float64 }{
		{100, 50, 100.0/50 + 50.0/500},
		{1, 150, 2 * math.Sqrt(1.0/500)},
		{5, 50, 5.0/50 + 50.0/500}, // the speed is just reached
	} {
		p := plain(500, 16)
		m := p.Run([]lookahead.Move{{Steps: []int64{int64(c.mm * 80)}, Seconds: c.mm / c.v}})
		require.InDelta(t, c.want, last(m), 1e-12)
	}
}

// A long row of short moves is one trapezoid too, as far as the ring lets it.
func TestARowOfMovesIsOneTrapezoid(t *testing.T) {
	p := plain(500, 100)
	var moves []lookahead.Move
	for range 100 {
		moves = append(moves, lookahead.Move{Steps: []int64{80}, Seconds: 0.02})
	}
	require.InDelta(t, 100.0/50+50.0/500, last(p.Run(moves)), 1e-9)
}

// The published rule: a ring of B blocks of dt seconds carries no more speed
// than it can stop within them, dt >= v/(2(B-1)a).
func TestTheRingBoundsTheSpeed(t *testing.T) {
	const acc, blocks, v = 500, 16, 100.0
	rule := v / (2 * (blocks - 1) * acc)
	for _, c := range []struct {
		share float64
		kept  bool
	}{{1.2, true}, {0.8, false}} {
		p := plain(acc, blocks)
		var moves []lookahead.Move
		steps := int64(math.Round(v * rule * c.share * 80))
		for range 400 {
			moves = append(moves, lookahead.Move{Steps: []int64{steps}, Seconds: float64(steps) / 80 / v})
		}
		top := 0.0
		for _, x := range p.Run(moves).Pieces {
			top = max(top, x.Speed*float64(steps)/80)
		}
		if c.kept {
			require.InDelta(t, v, top, 1e-9)
		} else {
			require.Less(t, top, 0.95*v)
		}
	}
}

// At a right angle half the angle between the moves is 45 degrees, so that
// v² = a*d*s/(1-s) with s = sqrt(1/2): the circle that touches both moves and
// strays d from their corner has the radius d*s/(1-s) (plane geometry).
func TestTheCornerIsACircle(t *testing.T) {
	const acc, deviation = 1000, 0.02
	axis := lookahead.Axis{Acceleration: acc, Speed: 500, Weight: 1, StepsPerUnit: 100}
	p := lookahead.Planner{Axes: []lookahead.Axis{axis, axis}, Blocks: 16, Deviation: deviation}
	shapes := p.Shapes([]lookahead.Move{{Steps: []int64{1000, 0}, Seconds: 1}, {Steps: []int64{0, 1000}, Seconds: 1}})
	s := math.Sqrt(0.5)
	// Along the change of direction, at 45 degrees to both axes, the two give
	// the acceleration of the diagonal.
	want := math.Sqrt(acc * math.Sqrt2 * deviation * s / (1 - s))
	require.InDelta(t, want, shapes[1].Enter, 1e-9)
	require.Zero(t, shapes[0].Enter)
}

func TestReversalsAndDwellsStop(t *testing.T) {
	p := plain(500, 16)
	there := lookahead.Move{Steps: []int64{800}, Seconds: 0.2}
	back := lookahead.Move{Steps: []int64{-800}, Seconds: 0.2}
	one := 10.0/50 + 50.0/500
	require.InDelta(t, 2*one, last(p.Run([]lookahead.Move{there, back})), 1e-9)
	require.InDelta(t, 2*one+0.25, last(p.Run([]lookahead.Move{there, {Seconds: 0.25}, there})), 1e-9)
}

// A line of n characters takes 10n bits; when that is longer than its move,
// the wire sets the pace.
func TestASlowWireSetsThePace(t *testing.T) {
	p := plain(3000, 16)
	p.Link = lookahead.Link{Baud: 9600, Receive: 128}
	var moves []lookahead.Move
	for range 300 {
		moves = append(moves, lookahead.Move{Steps: []int64{8}, Seconds: 0.01, Chars: 24})
	}
	m := p.Run(moves)
	each := 24 * 10 / 9600.0
	// The dwell before the motion lets lines come ahead, at most the receive
	// buffer of them.
	require.InDelta(t, 300*each, last(m), 6*each)
	require.Positive(t, m.Starve)
	p.Link.Baud = 115200
	fast := p.Run(moves)
	require.Less(t, last(fast), 3.05)
	require.Zero(t, fast.Starve)
}

func TestAnAnswerForEachLineTakesItsTime(t *testing.T) {
	p := plain(3000, 4)
	p.Link = lookahead.Link{Baud: 1_000_000, Receive: 128, Reply: 0.02}
	var moves []lookahead.Move
	for range 100 {
		moves = append(moves, lookahead.Move{Steps: []int64{8}, Seconds: 0.01, Chars: 20})
	}
	require.InDelta(t, 100*0.0202, last(p.Run(moves)), 0.05)
}

// tiny is the duration, in s, below which a piece is what rounding leaves of a
// ramp, and its acceleration a quotient of such remainders.
const tiny = 1e-6

// Whatever it is told, the planner keeps to its acceleration and speed, goes on
// without a jump in speed, and ends where it was told to.
func TestPiecesKeepToTheSettings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		acc := rapid.Float64Range(50, 5000).Draw(t, "acceleration")
		p := plain(acc, rapid.IntRange(3, 40).Draw(t, "blocks"))
		if rapid.Bool().Draw(t, "link") {
			p.Link = lookahead.Link{Baud: 19200, Receive: 128}
		}
		moves := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) lookahead.Move {
			return lookahead.Move{
				Steps:   []int64{rapid.Int64Range(-300, 300).Filter(func(n int64) bool { return n != 0 }).Draw(t, "steps")},
				Seconds: rapid.Float64Range(0.002, 0.3).Draw(t, "seconds"), Chars: 22,
			}
		}), 1, 60).Draw(t, "moves")
		m := p.Run(moves)
		end, speed := 0.0, 0.0
		for _, x := range m.Pieces {
			length := math.Abs(float64(moves[x.Move].Steps[0])) / 80
			if x.Seconds > tiny {
				require.LessOrEqual(t, math.Abs(x.Acc)*length, acc*(1+1e-6))
			}
			require.LessOrEqual(t, x.Speed*length, 200*(1+1e-9))
			if x.Start-end < 1e-9 {
				require.InDelta(t, speed, x.Speed*length, 1e-3, "piece at %v", x.Start)
			}
			end, speed = x.Start+x.Seconds, (x.Speed+x.Acc*x.Seconds)*length
		}
		require.InDelta(t, 0, speed, 1e-3)
		require.InDelta(t, 1, m.Pieces[len(m.Pieces)-1].Share(m.Pieces[len(m.Pieces)-1].Seconds), 1e-9)
	})
}

// BenchmarkRun reports moves planned and run a second.
func BenchmarkRun(b *testing.B) {
	moves := cosine{100, 4, 80, 1000, 200, false}.moves("solved")
	p := board(1000, 80, 16)
	b.ReportAllocs()
	for b.Loop() {
		p.Run(moves)
	}
	b.ReportMetric(float64(b.N)*float64(len(moves))/b.Elapsed().Seconds()/1e6, "Mblocks/s")
}

// Whatever the moves, the wire and the settings, all is run and time goes on.
func FuzzRun(f *testing.F) {
	f.Add([]byte{10, 20, 30, 200, 0, 5, 80, 1}, uint16(500), uint8(16), uint16(9600), uint8(2))
	f.Add([]byte{1, 255, 1, 255, 128, 128}, uint16(1), uint8(0), uint16(1), uint8(200))
	f.Fuzz(func(t *testing.T, data []byte, acc uint16, blocks uint8, baud uint16, reply uint8) {
		p := plain(float64(acc)+1, max(int(blocks), 3))
		p.Slowest = 30.5
		p.Link = lookahead.Link{Baud: int(baud), Receive: 128, Reply: float64(reply) / 1000, Rate: float64(blocks)}
		var moves []lookahead.Move
		for i := 0; i+1 < len(data) && i < 200; i += 2 {
			m := lookahead.Move{Seconds: float64(data[i+1]+1) / 500, Chars: 10 + int(data[i])%40}
			if data[i] != 0 {
				m.Steps = []int64{int64(int8(data[i]))}
			}
			moves = append(moves, m)
		}
		m := p.Run(moves)
		before := 0.0
		for _, end := range m.Ends {
			require.False(t, math.IsNaN(end) || math.IsInf(end, 0))
			require.GreaterOrEqual(t, end, before)
			before = end
		}
		for _, x := range m.Pieces {
			require.Positive(t, x.Seconds)
			require.InDelta(t, 0.5, x.Share(x.Seconds/2), 0.5+1e-9)
		}
	})
}
