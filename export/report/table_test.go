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

// Columns go in the order they are named in, and no more of them than must; what a
// head means is told as long as it stands there.
func TestColumnsThatCanBeSpared(t *testing.T) {
	wide := strings.Repeat("w", 30)
	table := report.Table{
		Columns: []report.Column{{Head: "a", Right: true}, {Head: "b", Right: true, Means: "bee"}, {Head: "c", Right: true}, {Head: "d", Right: true, Means: "dee"}},
		Rows:    []report.Row{{Cells: []string{wide, "b", wide, "lasting"}}, {Across: "across"}},
		Spare:   []string{"none", "d", "a", "c"},
	}
	var r report.Report
	r.Section("")
	r.Add(table)
	told := func(columns int) string {
		var b strings.Builder
		require.NoError(t, report.TextWithin(&b, r, false, columns))
		return b.String()
	}
	for columns, want := range map[int][]string{120: {"a b c d", "b: bee; d: dee"}, 70: {"a b c", "b: bee"}, 60: {"b c", "b: bee"}} {
		words := strings.Join(strings.Fields(told(columns)), " ")
		assert.True(t, strings.HasPrefix(words, want[0]+" w") || strings.HasPrefix(words, want[0]+" b"), "%d: %s", columns, words)
		assert.True(t, strings.HasSuffix(words, "across "+want[1]), "%d: %s", columns, words)
	}
	assert.Len(t, table.Rows[0].Cells, 4, "the table stays as it is")
}

// Columns stand a space apart where two are too many and one is not, whether the last is of words or
// of numbers; in less room they are stacked.
func TestColumnsASpaceApart(t *testing.T) {
	for _, right := range []bool{false, true} {
		table := report.Table{
			Columns: []report.Column{{Head: "a"}, {Head: "b"}, {Head: "c", Right: right}},
			Rows:    []report.Row{{Cells: []string{"aaaaaaaaaaaa", "bbbbbbbbbbbb", "cccccccccccc"}}},
		}
		assert.Contains(t, table.TextWithin(40), "aaaaaaaaaaaa  bbbbbbbbbbbb  cccccccccccc\n")
		assert.Contains(t, table.TextWithin(39), "aaaaaaaaaaaa bbbbbbbbbbbb cccccccccccc\n")
		assert.Contains(t, table.TextWithin(38), "aaaaaaaaaaaa bbbbbbbbbbbb cccccccccccc\n")
		assert.Contains(t, table.TextWithin(37), "b  bbbbbbbbbbbb\n")
	}
}

// Where columns have no room beside each other, their cells stand below each other.
func TestStackedTable(t *testing.T) {
	table := report.Table{
		Columns: []report.Column{{Head: "law"}, {Head: "travel, mm", Right: true}, {Head: "loop", Right: true}},
		Rows:    []report.Row{{Cells: []string{"seven-segment", "60", "3.96"}}, {Cells: []string{"3-4-5", "", "4.13"}}, {Across: "the shot's own loop is no better"}},
	}
	assert.Equal(t, `law         seven-segment
travel, mm  60
loop        3.96

law         3-4-5
loop        4.13

the shot's own loop is no
better
`, table.TextWithin(26))
	assert.Equal(t, 3+1, strings.Count(table.TextWithin(30), "\n"), "as soon as there is room it is a table")
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
