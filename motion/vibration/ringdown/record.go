package ringdown

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Record is acceleration over time, one row a sample. What unit it is in does
// not matter.
type Record struct {
	Times  []float64 // s, rising
	Names  []string  // of the columns, "" where the file names none
	Series [][]float64
}

// Bounds of a record: a minute of a phone at its fastest has thirty thousand
// rows; fewer than minRows say nothing.
const (
	maxRows    = 500_000
	maxColumns = 64
	minRows    = 16
)

// ParseRecord reads the text of a table of time and acceleration, as phones
// write them: a comma, semicolon or tab between, lines of words above it, a
// decimal comma where commas do not part columns. The first column is the
// time, in seconds, milliseconds, microseconds or nanoseconds: its head says,
// or its steps do, since no phone measures slower than 4 or faster than 20 000
// times a second. Rows that hold no numbers are left out, as are those whose
// time does not go on.
//
// It fails if fewer than 16 rows are left, or there are more than 500 000.
func ParseRecord(text string) (Record, error) {
	lines := strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n")
	comma := separator(lines)
	var r Record
	var head []string
	var unit string
	width := 0
	for _, line := range lines {
		cells := cut(line, comma)
		row, ok := numbers(cells, comma)
		switch {
		case !ok && width == 0 && len(cells) > 1:
			head = cells
		case ok && width == 0:
			width = len(row)
			r.Series = make([][]float64, width-1)
			unit = r.named(head, width)
			fallthrough
		case ok && len(row) >= width:
			r.add(row[:width])
		}
		if len(r.Times) > maxRows {
			return Record{}, fmt.Errorf("the record has more than %d rows; cut out the seconds after the knock", maxRows)
		}
	}
	if len(r.Times) < minRows {
		return Record{}, fmt.Errorf("the record has %d rows of numbers; it must have %d or more, the first column being the time", len(r.Times), minRows)
	}
	return r, r.seconds(unit)
}

// separator is the character that parts columns in most lines.
func separator(lines []string) string {
	best, most := ",", 0
	for _, c := range []string{"\t", ";", ","} {
		n := 0
		for _, l := range lines {
			if strings.Contains(l, c) {
				n++
			}
		}
		if n > most {
			best, most = c, n
		}
	}
	return best
}

func cut(line, comma string) []string {
	cells := strings.SplitN(strings.TrimSpace(line), comma, maxColumns+1)
	for i, c := range cells {
		cells[i] = strings.Trim(strings.TrimSpace(c), `"`)
	}
	return cells[:min(len(cells), maxColumns)]
}

// numbers reads the leading cells that are numbers: a time and one more at
// least.
func numbers(cells []string, comma string) ([]float64, bool) {
	var out []float64
	for _, c := range cells {
		if comma != "," {
			c = strings.Replace(c, ",", ".", 1)
		}
		v, err := strconv.ParseFloat(c, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			break
		}
		out = append(out, v)
	}
	return out, len(out) >= 2
}

// named keeps the heads of the columns and returns that of the time.
func (r *Record) named(head []string, width int) (time string) {
	r.Names = make([]string, width-1)
	for i := range r.Names {
		if i+1 < len(head) {
			r.Names[i] = head[i+1]
		}
	}
	if len(head) > 0 {
		return head[0]
	}
	return ""
}

func (r *Record) add(row []float64) {
	if n := len(r.Times); n > 0 && !(row[0] > r.Times[n-1]) {
		return
	}
	r.Times = append(r.Times, row[0])
	for i := range r.Series {
		r.Series[i] = append(r.Series[i], row[i+1])
	}
}

// Rates that a phone measures at, a second.
const (
	slowestRate = 4
	fastestRate = 20_000
)

// seconds takes the times to seconds from the first.
func (r *Record) seconds(head string) error {
	scale := scaleOf(head)
	if scale == 0 {
		step := median(differences(r.Times))
		for _, s := range []float64{1, 1e-3, 1e-6, 1e-9} {
			if rate := 1 / (step * s); rate >= slowestRate && rate <= fastestRate {
				scale = s
				break
			}
		}
	}
	if scale == 0 {
		return errors.New("the first column of the record is no time in seconds, milliseconds, microseconds or nanoseconds")
	}
	first := r.Times[0]
	for i := range r.Times {
		r.Times[i] = (r.Times[i] - first) * scale
	}
	return nil
}

// scaleOf is the unit that a head names in brackets or after a line: "Time
// (s)", "time_ms"; 0 where it names none.
func scaleOf(head string) float64 {
	words := strings.FieldsFunc(strings.ToLower(head), func(c rune) bool { return strings.ContainsRune(" ()[]_/-.", c) })
	units := map[string]float64{"s": 1, "sec": 1, "seconds": 1, "ms": 1e-3, "us": 1e-6, "µs": 1e-6, "ns": 1e-9}
	for _, w := range words {
		if s := units[w]; s > 0 {
			return s
		}
	}
	return 0
}

func differences(x []float64) []float64 {
	out := make([]float64, 0, len(x))
	for i := 1; i < len(x); i++ {
		out = append(out, x[i]-x[i-1])
	}
	return out
}

func median(x []float64) float64 {
	s := slices.Clone(x)
	slices.SortFunc(s, cmp.Compare)
	return s[len(s)/2]
}

// Liveliest returns the column that moves most, by its sum of squares about
// its mean.
func (r Record) Liveliest() int {
	best, most := 0, -1.0
	for i, s := range r.Series {
		mean, sum := 0.0, 0.0
		for _, v := range s {
			mean += v / float64(len(s))
		}
		for _, v := range s {
			sum += (v - mean) * (v - mean)
		}
		if sum > most {
			best, most = i, sum
		}
	}
	return best
}
