package apart_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/apart"
	"seamrail/motion/plan/sample/spent"
)

// told is both sides as a person sees them.
func told(here, there string) (string, string) {
	ours, theirs := apart.Lines(here, there)
	return side(ours), side(theirs)
}

func side(lines []apart.Line) string {
	var out []string
	for _, l := range lines {
		if l.Own {
			l.Text = "*" + l.Text
		}
		out = append(out, l.Text)
	}
	return strings.Join(out, "|")
}

func TestLines(t *testing.T) {
	for _, c := range [][4]string{
		{"", "", "", ""},
		{"a", "a", "a", "a"},
		{"a", "b", "*a", "*b"},
		{"a\nb\nc", "a\nc", "a|*b|c", "a|c"},
		{"a\nc", "a\nb\nc", "a|c", "a|*b|c"},
		{"a\nb\nc\nd", "c\nd\na\nb", "*a|*b|c|d", "c|d|*a|*b"},
		{"x\na\ny", "x\nb\ny\n", "x|*a|y", "x|*b|y|*"},
	} {
		ours, theirs := told(c[0], c[1])
		assert.Equal(t, c[2], ours)
		assert.Equal(t, c[3], theirs)
	}
}

// wantPairing wants both texts whole, and what they have in common in order.
func wantPairing(t require, here, there string) (common int) {
	ours, theirs := apart.Lines(here, there)
	var a, b, both, other []string
	for _, l := range ours {
		a = append(a, l.Text)
		if !l.Own {
			both = append(both, l.Text)
		}
	}
	for _, l := range theirs {
		b = append(b, l.Text)
		if !l.Own {
			other = append(other, l.Text)
		}
	}
	assert.Equal(t, here, strings.Join(a, "\n"))
	assert.Equal(t, there, strings.Join(b, "\n"))
	assert.Equal(t, both, other)
	return len(both)
}

type require = assert.TestingT

// most is how many lines can be kept, by trying every choice of them.
func most(a, b []string) (best int) {
	for choice := range 1 << len(a) {
		kept, j := 0, 0
		for i, line := range a {
			if choice>>i&1 == 0 {
				continue
			}
			for j < len(b) && b[j] != line {
				j++
			}
			if j == len(b) {
				kept = -1
				break
			}
			kept, j = kept+1, j+1
		}
		best = max(best, kept)
	}
	return best
}

func TestAsManyLinesAsCanBeAreKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", ""}), 1, 9)
		a, b := lines.Draw(t, "here"), lines.Draw(t, "there")
		assert.Equal(t, most(a, b), wantPairing(t, strings.Join(a, "\n"), strings.Join(b, "\n")))
	})
}

// Where much has changed, lines that both have once still part it.
func TestLongTextsAreApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		r := rand.New(rand.NewPCG(seed, 1))
		var a, b []string
		kept := 0
		for n := range 1500 {
			switch r.IntN(5) {
			case 0:
				a = append(a, fmt.Sprint("here ", r.IntN(9)))
			case 1:
				b = append(b, fmt.Sprint("there ", r.IntN(9)))
			default:
				line := fmt.Sprint("both ", n)
				a, b, kept = append(a, line), append(b, line), kept+1
			}
		}
		assert.Equal(t, kept, wantPairing(t, strings.Join(a, "\n"), strings.Join(b, "\n")))
	})
}

// maxTime is many times what a megabyte against another takes of the processor, which is
// some tenths of a second. Were it the square of the lines, it would be minutes.
const maxTime = 5 * time.Second

func TestAMegabyteIsApartSoon(t *testing.T) {
	const bytes = 1 << 20
	of := func(line func(n int) string) string {
		var b strings.Builder
		for n := 0; b.Len() < bytes; n++ {
			b.WriteString(line(n) + "\n")
		}
		return b.String()
	}
	r := rand.New(rand.NewPCG(1, 2))
	few := func(int) string { return fmt.Sprint(r.IntN(3)) }
	for name, texts := range map[string][2]string{
		"nothing in common": {of(func(n int) string { return fmt.Sprint("here ", n) }), of(func(n int) string { return fmt.Sprint("there ", n) })},
		"every other line":  {of(func(n int) string { return fmt.Sprint(n) }), of(func(n int) string { return fmt.Sprint(n * 2) })},
		"the other way":     {of(func(n int) string { return fmt.Sprint(n) }), of(func(n int) string { return fmt.Sprint(200_000 - n) })},
		"few lines again":   {of(few), of(few)},
		"empty lines":       {strings.Repeat("\n", bytes), strings.Repeat("\n", bytes) + "x"},
		"islands in few":    {of(func(n int) string { return island(n, few) }), of(func(n int) string { return island(n, few) })},
		"one line":          {strings.Repeat("a", bytes), strings.Repeat("b", bytes)},
	} {
		t.Run(name, func(t *testing.T) {
			took := spent.By(func() { apart.Lines(texts[0], texts[1]) })
			t.Log(took)
			assert.Less(t, took, maxTime)
			wantPairing(t, texts[0], texts[1])
		})
	}
}

// island is a line that is there once, after some hundred that are there often.
func island(n int, other func(int) string) string {
	if n%150 == 0 {
		return fmt.Sprint("island ", n)
	}
	return other(n)
}
