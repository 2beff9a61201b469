package sweep

import (
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Span is from when to when, in s by the clock of whoever drove.
type Span struct{ From, To float64 }

// Burst is one frequency of a sweep: the foot went to and fro.
type Burst struct {
	Span
	Frequency float64 // Hz, as it was made
	Push      float64 // amplitude of the foot's acceleration at it, mm/s2 or deg/s2
}

// Log is what was done in a sweep, and when.
type Log struct {
	Axis, Unit string
	Damping    float64 // that was expected
	// Marks are single moves, each with silence before it, by which a record is laid
	// beside the sweep: some before it, and some after it, whose swing is let ring.
	Marks  []Span
	Bursts []Burst
}

// Text is the log as a table, which Parse reads.
func (l Log) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# a sweep of seamrail: rows are a kind and numbers. mark and burst: from s, to s; burst: Hz, push in unit/s2\n")
	w := csv.NewWriter(&b) // an axis may be called anything
	_ = w.Write([]string{"axis", l.Axis, l.Unit})
	w.Flush()
	fmt.Fprintf(&b, "damping,%g\n", l.Damping)
	for _, m := range l.Marks {
		fmt.Fprintf(&b, "mark,%.4f,%.4f\n", m.From, m.To)
	}
	for _, s := range l.Bursts {
		fmt.Fprintf(&b, "burst,%.4f,%.4f,%.6g,%.6g\n", s.From, s.To, s.Frequency, s.Push)
	}
	return b.String()
}

// kinds are how many columns a row of a log has.
var kinds = map[string]int{"axis": 3, "damping": 2, "mark": 3, "burst": 5}

// Parse reads what Text has written.
func Parse(text string) (Log, error) {
	var l Log
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', -1
	rows, err := r.ReadAll()
	if err != nil {
		return l, fmt.Errorf("it is no table of a sweep: %w", err)
	}
	for _, row := range rows {
		if len(row) != kinds[row[0]] {
			return l, fmt.Errorf("a row %q is none of a sweep's", strings.Join(row, ","))
		}
		if row[0] == "axis" {
			l.Axis, l.Unit = row[1], row[2]
			continue
		}
		v, err := numbers(row[1:])
		if err != nil {
			return l, fmt.Errorf("row %q: %w", strings.Join(row, ","), err)
		}
		switch row[0] {
		case "damping":
			l.Damping = v[0]
		case "mark":
			l.Marks = append(l.Marks, Span{v[0], v[1]})
		default:
			l.Bursts = append(l.Bursts, Burst{Span{v[0], v[1]}, v[2], v[3]})
		}
	}
	return l, l.check()
}

func numbers(cells []string) (out []float64, err error) {
	for _, c := range cells {
		v, err := strconv.ParseFloat(c, 64)
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || v < 0 {
			return nil, fmt.Errorf("%q is no number from 0 on", c)
		}
		out = append(out, v)
	}
	return out, nil
}

// FewestBursts say anything of a resonance: a top and two to either side.
const FewestBursts = 5

// longestRecord is a day, in s: nobody sweeps so long, and no phone records so much.
const longestRecord = 86_400

func (l Log) check() error {
	if len(l.Bursts) < FewestBursts || len(l.Marks) == 0 || l.Damping <= 0 {
		return fmt.Errorf("a sweep has %d bursts or more, a mark and the damping that was expected", FewestBursts)
	}
	last := Burst{}
	for _, s := range l.Bursts {
		if !(s.To > s.From && s.From >= last.To && s.Frequency > 0 && s.Push > 0) {
			return fmt.Errorf("the burst at %g Hz, from %g to %g s, must push, and come after the one before", s.Frequency, s.From, s.To)
		}
		last = s
	}
	till := 0.0
	for _, m := range l.Marks {
		if !(m.To > m.From && m.From >= till) {
			return fmt.Errorf("the mark from %g to %g s must last, and come after the one before", m.From, m.To)
		}
		till = m.To
	}
	if longest := max(till, last.To); longest > longestRecord {
		return fmt.Errorf("a sweep of %.3g s is none: it may go on for %d s", longest, longestRecord)
	}
	return nil
}
