package music

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
)

// What heads the columns of a table of markers.
const (
	nameHead = "name"
	timeHead = "time"
)

// table reads a table of names and times as CSV (RFC 4180; a semicolon or a tab parts
// columns as well as a comma). Heads are wanted only where the columns are others than
// name and time.
func (r *listReader) table() {
	if bytes.IndexByte(r.data, 0) >= 0 || !utf8.Valid(r.data) {
		r.wrong(0, "the file", "", "must be text in UTF-8, and this is not", "")
		return
	}
	c := csv.NewReader(bytes.NewReader(r.data))
	c.Comma, c.FieldsPerRecord, c.Comment = separator(r.data), -1, '#'
	c.TrimLeadingSpace = c.Comma != '\t' // which is space itself, and an empty column would go
	name, time := 0, 1
	for first := true; !r.full; first = false {
		row, err := c.Read()
		if row == nil {
			r.syntax(err)
			return
		}
		if first && slices.ContainsFunc(row, func(s string) bool { return head(s) == timeHead }) {
			heads := make([]string, len(row))
			for i, s := range row {
				heads[i] = head(s)
			}
			name, time = slices.Index(heads, nameHead), slices.Index(heads, timeHead)
			if name < 0 {
				r.wrongAt(1, 1, "columns", "", "lack one with the head name", "such as name,time")
				return
			}
			continue
		}
		r.row(c, row, name, time)
	}
}

func head(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

// separator is what parts the columns of the first line that is no comment.
func separator(data []byte) rune {
	for line := range bytes.Lines(data) {
		line = bytes.TrimSpace(line)
		if len(line) == 0 || line[0] == '#' {
			continue
		}
		for _, s := range []rune{'\t', ';'} {
			if bytes.ContainsRune(line, s) && !bytes.ContainsRune(line, ',') {
				return s
			}
		}
		break
	}
	return ','
}

// syntax tells of an error of the table itself; its end is none.
func (r *listReader) syntax(err error) {
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		r.wrongAt(parse.Line, parse.Column, "CSV:", "", parse.Err.Error(), "")
	}
}

func (r *listReader) row(c *csv.Reader, row []string, name, time int) {
	at := func(field int) (line, column int) {
		line, column = c.FieldPos(min(field, len(row)-1))
		start := 0
		for range line - 1 {
			start += bytes.IndexByte(r.data[start:], '\n') + 1
		}
		return line, len([]rune(string(r.data[start:min(start+column-1, len(r.data))]))) + 1
	}
	line, column := at(name)
	if len(row) <= max(name, time) {
		r.wrongAt(line, column, "row", "", fmt.Sprintf("has %d of the columns name and time", len(row)), "such as splash,1.25 s")
		return
	}
	called := named(row[name])
	if called == "" {
		r.wrongAt(line, column, "marker", "", "has no name", "")
		return
	}
	for _, k := range r.markers {
		if k.Name == called {
			r.wrongAt(line, column, "marker "+quoted(called), "", fmt.Sprintf("has the name of that in line %d", k.line), "give one of them another name")
			return
		}
	}
	timeLine, timeColumn := at(time)
	when, err := r.time(strings.TrimSpace(row[time]))
	if err != nil {
		r.wrongAt(timeLine, timeColumn, "marker "+quoted(called), "", err.Error(), "")
		return
	}
	if n := len(r.markers); n > 0 && when.Less(r.markers[n-1].At) {
		before := r.markers[n-1]
		r.wrongAt(timeLine, timeColumn, "marker "+quoted(called), "", fmt.Sprintf("is at %s s, before %s of line %d at %s s", when.Decimal(3), quoted(before.Name), before.line, before.At.Decimal(3)),
			"list markers in the order of time")
		return
	}
	r.add(line, column, called, when)
}

// time reads a time of a table: "1.25 s", "30 frames", 1.25 for seconds, "1:05.250", or
// timecode at the playback rate.
func (r *listReader) time(text string) (exact.Rat, error) {
	const forms = `must be a time, such as 1.25, "1.25 s", "30 frames", "1:05.250" or "00:00:01:06"`
	if len(text) > longestName {
		return exact.Rat{}, fmt.Errorf("%s %s", quoted(text), forms)
	}
	switch strings.Count(text, ":") + strings.Count(text, ";") {
	case 0:
		if n, err := exact.Parse(text); err == nil {
			return n, nil
		}
		q, err := unit.ParseAs(text, unit.Time, unit.Frames)
		if err != nil {
			return exact.Rat{}, fmt.Errorf("%s %s", quoted(text), forms)
		}
		return onScreen(q, r.playback), nil
	case 3:
		at, err := labels(r.playback, text)
		return at, err
	}
	sum := exact.Rat{}
	for i, part := range strings.Split(text, ":") {
		n, err := exact.Parse(part)
		if err != nil || strings.ContainsAny(part, "+-/") || i > 0 && !n.Less(minute) {
			return exact.Rat{}, fmt.Errorf("%s %s", quoted(text), forms)
		}
		sum = sum.Mul(minute).Add(n)
	}
	return sum, nil
}
