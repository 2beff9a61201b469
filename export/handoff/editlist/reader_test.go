package editlist_test

import (
	"bufio"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A reader of such lists that shares nothing with the writer: labels are counted here by
// the arithmetic of SMPTE ST 12-1 as handbooks give it, and lines taken apart by their
// fields. That it reads what others write is held by TestTheReaderReadsOthers.
type (
	readEvent struct {
		number              int
		reel, from          string // from: what a dissolve comes out of
		dissolve            int64
		speed               float64
		sourceIn, sourceOut int64
		recordIn, recordOut int64
	}
	readList struct {
		title  string
		drop   bool
		events []readEvent
		marks  []int64
	}
)

var (
	cutLine      = regexp.MustCompile(`^(\d{3})\s+(\S+)\s+(\S+)\s+C\s+(\S+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$`)
	dissolveLine = regexp.MustCompile(`^(\d{3})\s+(\S+)\s+(\S+)\s+D\s+(\d{3})\s+(\S+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$`)
	speedLine    = regexp.MustCompile(`^M2\s+(\S+)\s+(-?\d{3}\.\d)\s+(\S+)\s*$`)
	markLine     = regexp.MustCompile(`^\* LOC: (\S+) +([A-Z]+) +\S`)
)

func read(text string, base int64) (out readList, err error) {
	count := func(label string) int64 {
		f := strings.FieldsFunc(label, func(r rune) bool { return r == ':' || r == ';' })
		if len(f) != 4 {
			err = fmt.Errorf("label %q", label)
			return 0
		}
		var v [4]int64
		for i, s := range f {
			if v[i], err = strconv.ParseInt(s, 10, 64); err != nil || len(s) != 2 {
				err = fmt.Errorf("label %q", label)
				return 0
			}
		}
		minutes := 60*v[0] + v[1]
		n := (60*minutes+v[2])*base + v[3]
		if out.drop {
			n -= 2 * (minutes - minutes/10)
		}
		return n
	}
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		line := lines.Text()
		switch {
		case strings.HasPrefix(line, "TITLE:"):
			out.title = strings.TrimSpace(line[6:])
		case strings.HasPrefix(line, "FCM:"):
			out.drop = strings.TrimSpace(line[4:]) == "DROP FRAME"
		case cutLine.MatchString(line):
			m := cutLine.FindStringSubmatch(line)
			n, _ := strconv.Atoi(m[1])
			out.events = append(out.events, readEvent{number: n, reel: m[2], sourceIn: count(m[4]), sourceOut: count(m[5]), recordIn: count(m[6]), recordOut: count(m[7])})
		case dissolveLine.MatchString(line):
			m := dissolveLine.FindStringSubmatch(line)
			n, _ := strconv.Atoi(m[1])
			last := &out.events[len(out.events)-1]
			if last.number != n {
				return out, fmt.Errorf("a dissolve comes out of nothing: %q", line)
			}
			if last.recordIn == last.recordOut && last.sourceIn != last.sourceOut {
				return out, fmt.Errorf("what goes out has frames and no length, before %q", line)
			}
			length, _ := strconv.ParseInt(m[4], 10, 64)
			from := last.reel
			if last.recordIn < last.recordOut { // it comes out of an event of the same number
				out.events = append(out.events, readEvent{})
				last = &out.events[len(out.events)-1]
			}
			*last = readEvent{number: n, from: from, reel: m[2], dissolve: length,
				sourceIn: count(m[5]), sourceOut: count(m[6]), recordIn: count(m[7]), recordOut: count(m[8])}
		case speedLine.MatchString(line):
			m := speedLine.FindStringSubmatch(line)
			last := &out.events[len(out.events)-1]
			if m[1] == last.reel && count(m[3]) == last.sourceIn {
				last.speed, _ = strconv.ParseFloat(m[2], 64)
			}
		case strings.HasPrefix(line, "M2"):
			return out, fmt.Errorf("speed %q", line)
		case markLine.MatchString(line):
			out.marks = append(out.marks, count(markLine.FindStringSubmatch(line)[1]))
		case line == "", strings.HasPrefix(line, "*"):
		default:
			return out, fmt.Errorf("line %q", line)
		}
		if err != nil {
			return out, err
		}
	}
	return out, nil
}

// TestTheReaderReadsOthers holds the reader above against lists that others published,
// with what they say is in them.
func TestTheReaderReadsOthers(t *testing.T) {
	file, err := os.Open("../../../testdata/reference/edit_lists.tsv")
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	rows := bufio.NewScanner(file)
	n := 0
	for rows.Scan() {
		if n++; n == 1 {
			continue
		}
		f := strings.Split(rows.Text(), "\t")
		require.Len(t, f, 5)
		base, _ := strconv.ParseInt(f[1], 10, 64)
		got, err := read(strings.ReplaceAll(f[4], "|", "\n"), base)
		require.NoError(t, err, f[0])
		var lengths, dissolves []string
		for _, e := range got.events {
			lengths = append(lengths, fmt.Sprint(e.recordOut-e.recordIn))
			dissolves = append(dissolves, fmt.Sprint(e.dissolve))
		}
		assert.Equal(t, f[2], strings.Join(lengths, " "), f[0])
		assert.Equal(t, f[3], strings.Join(dissolves, " "), f[0])
	}
	require.Greater(t, n, 2)
}
