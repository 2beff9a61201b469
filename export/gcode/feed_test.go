package gcode_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/gcode"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/segment"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

// One frame at 24000/1001 is F1438.5614 (1/minutes, NISTIR 6556; computed by
// hand as 60*24000/1001).
const frameFeed = 1438.5614

func TestFeedOfOneFrame(t *testing.T) {
	cut := segment.EqualTime{Seconds: exact.New(1001, 24000)}
	require.InDelta(t, frameFeed, 60/cut.Seconds.Float(), 5e-5)
	program := text(t, sample.Still(t), gcode.Options{Rounds: 1, Segmenter: cut})
	feeds := words(t, program, 'F')
	// 0.4375 s each way in 11 blocks.
	require.InDelta(t, 60*11/0.4375, feeds[1], 1e-3)
	require.Contains(t, program, "\nG4 P0.125\n", "the dwell of 3 frames")
}

// words returns the values of every word of a letter, in order.
func words(t testing.TB, program string, letter byte) []float64 {
	var out []float64
	for _, line := range strings.Split(program, "\n") {
		if strings.HasPrefix(line, "(") {
			continue
		}
		for _, m := range regexp.MustCompile(string(letter)+`(-?[0-9.]+)`).FindAllStringSubmatch(line, -1) {
			x, err := strconv.ParseFloat(m[1], 64)
			require.NoError(t, err)
			out = append(out, x)
		}
	}
	return out
}

// The thousandth round of a seventh of a turn is where exact arithmetic puts
// it, either way round: 360*n/7, rounded to the thousandth of a degree.
func TestPositionsDoNotDrift(t *testing.T) {
	for _, turns := range []exact.Rat{exact.New(1, 7), exact.New(-1, 7)} {
		table := sample.Table(t)
		table = sample.Turning(table, turns)
		tr := sample.Make(t, 24, sample.Bench(rig.InverseTime), sample.Rail(t, "3-4-5", 2), table)
		checkRounds(t, text(t, tr, gcode.Options{Rounds: manyRounds}), turns)
	}
}

const manyRounds = 1000

func checkRounds(t *testing.T, program string, turns exact.Rat) {
	parts := strings.Split(program, "(round ")[1:]
	require.Len(t, parts, manyRounds)
	for n, part := range parts {
		part, _, _ = strings.Cut(part, "(run-out)")
		turned := words(t, part, 'A')
		want := turns.Mul(exact.Int(360 * int64(n+1)))
		require.InDelta(t, want.Float(), turned[len(turned)-1], wordGrain, "round %d", n+1)
		rail := words(t, part, 'X')
		require.Equal(t, 40.0, rail[len(rail)-1])
	}
}

// A minute's feed counts the length along X Y Z if any of them moves, else the
// degrees; so F times the duration is that length, block by block.
func TestPerMinuteFeeds(t *testing.T) {
	opt := gcode.Options{Rounds: 1, Segmenter: segment.EqualTime{}}
	inverse := strings.Split(text(t, sample.Through(t), opt), "\n")
	minute := strings.Split(text(t, sample.With(t, rig.PerMinute), opt), "\n")
	var still, moving int
	at := map[byte]float64{}
	drop := func(lines []string) (out []string) {
		for _, l := range lines {
			if strings.HasPrefix(l, "G1") {
				out = append(out, l)
			}
		}
		return out
	}
	inverse, minute = drop(inverse), drop(minute)
	require.Len(t, minute, len(inverse))
	for i := range inverse {
		went := map[byte]float64{}
		for _, letter := range []byte("XA") {
			if w := words(t, minute[i], letter); len(w) > 0 {
				went[letter], at[letter] = max(w[0]-at[letter], at[letter]-w[0]), w[0]
			}
		}
		if i < 2 {
			continue // the way to the start
		}
		length := went['X']
		if length == 0 {
			length, still = went['A'], still+1
		} else {
			moving++
		}
		feed := length * words(t, inverse[i], 'F')[0]
		require.InEpsilon(t, feed, words(t, minute[i], 'F')[0], 1e-6, minute[i])
	}
	require.Positive(t, still)
	require.Positive(t, moving)
}
