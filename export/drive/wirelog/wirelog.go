// Package wirelog keeps all that goes over the wire to a controller with its times, and
// plays such a record back as a controller.
//
// A record is text. Its first line is Schema; then comes its head, a line "key value" each,
// with the files of the run, each of whose lines begins with "|"; then, after an empty line,
// a row for all that happened, in order: its time in microseconds since the wire was
// opened, what it is, and its bytes, of which those that cannot be looked at are escaped.
//
// With the bytes it has every wake of the host and every request of its operator. Played
// back to the same program each wait ends as it ended then, at the same time, so that the
// program does again what it did, to the byte; the times that it was told are whole
// microseconds for that. Times of day are in no record, nor is the name of a port.
package wirelog

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"

	"seamrail/export/drive"
)

// Schema names the layout of a record.
const Schema = "seamrail-wire/1"

// Head says what was recorded.
type Head struct {
	Virtual bool     // by a controller made of software: it shows nothing of a board
	Kind    string   // of controller, as the rig file has it
	Baud    int      // bits a second
	System  string   // of the host, as "linux/amd64"
	Program string   // and its version
	Words   []string // of the command that says how the shot is planned
	Runs    []Run    // of the engine, one after the other on the same wire
	Files   []File
}

// Run is how the engine was told to run, where the files do not tell it.
type Run struct {
	Settle    drive.Settling `json:"settle"`
	Takes     int            `json:"takes"`
	Rounds    int64          `json:"rounds"`
	CountIn   int            `json:"count_in"`
	Confirmed bool           `json:"confirmed"`
	Unlock    bool           `json:"unlock"`
	Group     bool           `json:"group"` // every axis comes to the start from one side
	Ended     string         `json:"ended"`
}

// File is one that the run was made from.
type File struct {
	Name string // from the folder that holds all of them, with slashes
	Text []byte
}

// Record is a whole record.
type Record struct {
	Head
	Rows []Row
}

// Gives is what a record gives away, to be said before it is sent to anybody.
const Gives = "A record of the wire has all that the controller was told and answered, its settings among them, and the files of the shot, the rig and what lies under them, comments too. It has no time of day, and no name of a port, of a user or of a folder above those files, unless they have. Look at it before you send it to anybody: it is text."

// The keys of a head.
const (
	madeKey, kindKey, baudKey, systemKey, programKey, wordKey, runKey, fileKey = "made-by", "kind", "baud", "system", "program", "word", "run", "file"
	board, software                                                            = "a board", "software, and no board"
)

// text is the head as it stands in the file.
func (h Head) text() []byte {
	var b bytes.Buffer
	line := func(key, value string) { fmt.Fprintf(&b, "%s %s\n", key, escaped([]byte(value))) }
	made := board
	if h.Virtual {
		made = software
	}
	fmt.Fprintln(&b, Schema)
	line(madeKey, made)
	line(kindKey, h.Kind)
	line(baudKey, strconv.Itoa(h.Baud))
	line(systemKey, h.System)
	line(programKey, h.Program)
	for _, w := range h.Words {
		line(wordKey, w)
	}
	for _, r := range h.Runs {
		text, _ := json.Marshal(r) // numbers, truths and words, which it takes
		line(runKey, string(text))
	}
	for _, f := range h.Files {
		line(fileKey, f.Name)
		for text := range bytes.Lines(f.Text) {
			fmt.Fprintf(&b, "|%s\n", escaped(bytes.TrimSuffix(text, []byte("\n"))))
		}
	}
	b.WriteByte('\n')
	return b.Bytes()
}

// set reads a line of a head.
func (h *Head) set(line string) (err error) {
	if text, ok := strings.CutPrefix(line, "|"); ok {
		if len(h.Files) == 0 {
			return errors.New("a line of a file comes before its name")
		}
		f := &h.Files[len(h.Files)-1]
		bytes, err := unescaped(text)
		f.Text = append(append(f.Text, bytes...), '\n')
		return err
	}
	key, said, _ := strings.Cut(line, " ")
	bytes, err := unescaped(said)
	if err != nil {
		return err
	}
	value := string(bytes)
	switch key {
	case madeKey:
		h.Virtual = value == software
		if value != board && value != software {
			err = fmt.Errorf("%s is %q or %q", madeKey, board, software)
		}
	case kindKey:
		h.Kind = value
	case baudKey:
		h.Baud, err = strconv.Atoi(value)
	case systemKey:
		h.System = value
	case programKey:
		h.Program = value
	case wordKey:
		h.Words = append(h.Words, value)
	case runKey:
		h.Runs = append(h.Runs, Run{})
		err = json.Unmarshal(bytes, &h.Runs[len(h.Runs)-1])
	case fileKey:
		if value == "" || path.IsAbs(value) || path.Clean(value) != value || strings.ContainsAny(value, `\:`) || strings.HasPrefix(value, ".") {
			return fmt.Errorf("the name %q of a file must be one below the folder of the record", value)
		}
		h.Files = append(h.Files, File{Name: value})
	default:
		err = fmt.Errorf("a head has no %q", key)
	}
	return err
}

// longestLine is far more than a wire takes or gives at once, in bytes.
const longestLine = 1 << 20

// Read reads a record. An error of what is in it names the line, as "name:12: ...".
func Read(name string, from io.Reader) (Record, error) {
	var r Record
	lines := bufio.NewScanner(from)
	lines.Buffer(nil, longestLine)
	n, rows := 0, false
	wrong := func(format string, args ...any) (Record, error) {
		return r, fmt.Errorf("%s:%d: %w", name, n, fmt.Errorf(format, args...))
	}
	for lines.Scan() {
		n++
		line := strings.TrimSuffix(lines.Text(), "\r")
		switch {
		case n == 1 && line != Schema:
			return wrong("a record of the wire begins with %q", Schema)
		case n == 1:
		case !rows && line == "":
			rows = true
		case !rows:
			if err := r.set(line); err != nil {
				return wrong("%w", err)
			}
		case r.ended():
			return wrong("there is more after the end of the record")
		default:
			if err := r.row(n, line); err != nil {
				return wrong("%w", err)
			}
		}
	}
	n++
	switch err := lines.Err(); {
	case err != nil:
		return wrong("%w", err)
	case !r.ended():
		return wrong("the record breaks off: its last row is no =")
	}
	return r, nil
}

// row adds a row, which is no earlier than the one before.
func (r *Record) row(n int, line string) error {
	row, err := rowOf(line)
	if err != nil {
		return err
	}
	if k := len(r.Rows); k > 0 && row.At < r.Rows[k-1].At {
		return fmt.Errorf("at %d us it is before the row above it, at %d", row.At.Microseconds(), r.Rows[k-1].At.Microseconds())
	}
	row.Line = n
	r.Rows = append(r.Rows, row)
	return nil
}

func (r *Record) ended() bool {
	return len(r.Rows) > 0 && r.Rows[len(r.Rows)-1].What == Ending
}

// Whole tells whether the record has all of its run.
func (r *Record) Whole() bool { return r.ended() && len(r.Rows[len(r.Rows)-1].Bytes) == 0 }
