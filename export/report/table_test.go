package report_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/report"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
)

func TestTable(t *testing.T) {
	two := report.Table{Columns: []report.Column{{Head: "PORT"}, {Head: "N", Right: true}, {Head: "WHAT"}}, Rows: []report.Row{
		{Cells: []string{"±", "1", "a board"}}, {Cells: []string{"long/name", "12", ""}},
	}}
	assert.Equal(t, "PORT        N  WHAT\n±           1  a board\nlong/name  12\n", two.Text())
	two.Close, two.Bare = true, true
	assert.Equal(t, "±          1 a board\nlong/name 12\n", two.Text())
	two.Columns[0].Width = 11
	assert.Equal(t, "±            1 a board\nlong/name   12\n", two.Text())
}

// Columns go in the order they are named in, and no more of them than must.
func TestShed(t *testing.T) {
	wide := strings.Repeat("w", 30)
	table := report.Table{
		Columns: []report.Column{{Head: "a", Right: true}, {Head: "b", Right: true}, {Head: "c", Right: true}, {Head: "d", Right: true}},
		Rows:    []report.Row{{Cells: []string{wide, "b", wide, wide}}, {Across: "across"}},
	}
	table.Shed("none", "d", "a", "c")
	assert.True(t, table.Has("a"))
	assert.False(t, table.Has("d"))
	assert.Equal(t, []string{wide, "b", wide}, table.Rows[0].Cells)
	assert.True(t, table.Fits(report.Width))
}

// Whatever stands in a table, it is as narrow as a page where its last column is
// folded, and columns stand one below the other.
func TestTablesFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-zµ±]{1,8}`)
		table := report.Table{Columns: []report.Column{{Head: "one"}, {Head: "two", Right: true}, {Head: "three"}}}
		for range rapid.IntRange(1, 5).Draw(t, "rows") {
			last := strings.Join(rapid.SliceOfN(word, 1, 40).Draw(t, "last"), " ")
			table.Rows = append(table.Rows, report.Row{Cells: []string{word.Draw(t, "first"), word.Draw(t, "second"), last}})
		}
		lines := strings.Split(strings.TrimSuffix(table.Text(), "\n"), "\n")
		from := strings.Index(lines[0], "three")
		var words []string
		for _, line := range lines {
			r := []rune(line)
			assert.LessOrEqual(t, utf8.RuneCountInString(line), report.Width, line)
			assert.Equal(t, ' ', r[from-1], line)
			words = append(words, strings.Fields(string(r[from:]))...)
		}
		want := []string{"three"}
		for _, row := range table.Rows {
			want = append(want, strings.Fields(row.Cells[2])...)
		}
		assert.Equal(t, want, words)
	})
}

// Folded text keeps its words and its width, whatever they are.
func TestFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zµ±]{1,14}`), 1, 40).Draw(t, "words")
		width := rapid.IntRange(14, 80).Draw(t, "width")
		lines := report.Fold(strings.Join(words, " "), width)
		assert.Equal(t, words, strings.Fields(strings.Join(lines, " ")))
		for i, line := range lines {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), width)
			if i > 0 {
				first := strings.Fields(line)[0]
				assert.Greater(t, utf8.RuneCountInString(lines[i-1])+1+utf8.RuneCountInString(first), width, "it would have fitted above")
			}
		}
	})
}

func TestWhen(t *testing.T) {
	c, err := clock.New(exact.Int(120), exact.Int(24), exact.Rat{})
	require.NoError(t, err)
	assert.Equal(t, "at 1.000 s, frame 24.0", report.When(c, 0.2))
	assert.Equal(t, "at -0.500 s, frame -12.0", report.When(c, -0.1))
	assert.Equal(t, "at 0.000 s, frame 0.0", report.When(c, -1e-9), "never -0")
}
