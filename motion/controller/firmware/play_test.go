package firmware

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// event is what a watch was told.
type event struct {
	what        string
	line        int64
	from, until float64 // s
}

// watched plays lines on a rail of 80 steps a mm and tells what was seen.
func watched(t *testing.T, b *Board, link Link, lines ...string) (seen []event, steps int64, end float64) {
	next := func() (string, bool) {
		if len(lines) == 0 {
			return "", false
		}
		l := lines[0]
		lines = lines[1:]
		return l, true
	}
	at := int64(0)
	last, err := b.Play(next, "XA", Counts{}, link, Watch{
		Slice: func(s *Slice, start Instant) {
			require.Equal(t, at, s.CountsAfter(1, 0)[0], "each slice goes on where the last ended")
			at = s.CountsAfter(1, s.Pulses)[0]
		},
		Began: func(line int64, at Instant) { seen = append(seen, event{"began", line, at.Seconds(), 0}) },
		Stands: func(line int64, from, until Instant) {
			seen = append(seen, event{"stands", line, from.Seconds(), until.Seconds()})
		},
	})
	require.NoError(t, err)
	return seen, at, last.Seconds()
}

// TestAProgramFromItsFirstLineToItsLast: 10 mm at 10 mm/s and 500 mm/s2 take 1 s and a
// fiftieth to speed up and slow down; the dwell begins when all motion has ended and lasts
// half a second. A line without a step is dropped. A host that waits for each answer is
// 16 ms late with each line, and that counts where the board has nothing else to do.
func TestAProgramFromItsFirstLineToItsLast(t *testing.T) {
	const move, grain = 1.02, 2e-3 // s, and how near a cut into slices comes
	lines := []string{"G21 G90", "G94", "G1 X10 F600", "G4 P0.5", "G1 X10 F600", "G1 X0 F600"}
	for _, x := range []struct {
		name                  string
		set                   func(b *Board)
		link                  Link
		begins, rests, on, to float64
	}{
		{"at once", func(*Board) {}, Link{}, 0, move, move + 0.5, 2*move + 0.5},
		{"idle for 25 ms at each end", func(b *Board) { b.IdleDelay = Lasting(0.025) }, Link{}, 0, move + 0.025, move + 0.525, 2*move + 0.55},
		{"each line read in 10 ms", func(b *Board) { b.Line = Lasting(0.01) }, Link{}, 0.03, move + 0.03, move + 0.55, 2*move + 0.55},
		{"waiting for answers", func(*Board) {}, Link{Single: true, Reply: Lasting(0.016)}, 0.032, move + 0.032, move + 0.532 + 0.032, 2*move + 0.564},
	} {
		b := railAndTable()
		x.set(b)
		seen, steps, end := watched(t, b, x.link, lines...)
		require.Len(t, seen, 3, "%s: %+v", x.name, seen)
		assert.Zero(t, steps, "there and back")
		assert.Equal(t, []string{"began", "stands", "began"}, []string{seen[0].what, seen[1].what, seen[2].what})
		assert.Equal(t, []int64{3, 4, 6}, []int64{seen[0].line, seen[1].line, seen[2].line})
		assert.InDelta(t, x.begins, seen[0].from, 1e-9, x.name)
		assert.InDelta(t, x.rests, seen[1].from, grain, x.name)
		assert.InDelta(t, 0.5, seen[1].until-seen[1].from, 1e-9, x.name)
		assert.InDelta(t, x.on, seen[2].from, grain, x.name)
		assert.InDelta(t, x.to, end, 2*grain, x.name)
	}
}

// TestARingThatIsTooShort: moves of 1 mm at 100 mm/s and 500 mm/s2. With sixteen places a
// board looks far enough ahead to come near its speed; with three it can never go faster
// than it can stop within one or two of them.
func TestARingThatIsTooShort(t *testing.T) {
	var lines []string
	for i := 1; i <= 60; i++ {
		lines = append(lines, "G1 X"+string(rune('0'+i/10))+string(rune('0'+i%10))+" F6000")
	}
	took := func(blocks int) float64 {
		b := railAndTable()
		b.Blocks = blocks
		_, steps, end := watched(t, b, Link{}, append([]string{"G21 G90", "G94"}, lines...)...)
		require.Equal(t, int64(4800), steps)
		return end
	}
	// 60 mm by a trapezoid of 100 mm/s: 0.6 s and 0.2 s.
	assert.InDelta(t, 0.8, took(16), 0.02)
	// With one block ahead of the one that runs it goes at most as fast as it can stop in
	// 1 mm, 31.6 mm/s: some 1.9 s.
	assert.InDelta(t, 60/31.6, took(3), 0.35)
	assert.Greater(t, took(3), took(5))
	assert.Greater(t, took(5), took(9))
}

// TestLinesThatCannotBeForetold end the program where they are.
func TestLinesThatCannotBeForetold(t *testing.T) {
	b := railAndTable()
	lines := []string{"G21 G90", "G94", "G1 X1 F600", "G2 X3"}
	next := func() (string, bool) {
		if len(lines) == 0 {
			return "", false
		}
		l := lines[0]
		lines = lines[1:]
		return l, true
	}
	_, err := b.Play(next, "XA", Counts{}, Link{Single: true}, Watch{})
	require.EqualError(t, err, `line "G2 X3": G2 is not foretold`)
	_, _, end := watched(t, b, Link{}, "M2")
	assert.Zero(t, end)
}
