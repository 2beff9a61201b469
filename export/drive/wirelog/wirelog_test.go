package wirelog_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/wirelog"
)

// world is one in which what is listed happens, a millisecond and a half at a time.
type world struct {
	now    time.Time
	events []drive.Event
}

func (w *world) Now() time.Time { return w.now }

func (w *world) Write(p []byte) (int, error) { return min(len(p), 3), nil }

func (w *world) Wait(time.Time) drive.Event {
	w.now = w.now.Add(1500 * time.Nanosecond)
	e := w.events[0]
	w.events = w.events[1:]
	return e
}

var head = wirelog.Head{
	Virtual: true, Kind: "buffered", Baud: 9600, System: "here", Program: "seamrail x", Words: []string{"drive", "a b\\"},
	Runs:  []wirelog.Run{{Settle: drive.ByHand, Takes: 2, Rounds: 3, CountIn: 4, Confirmed: true, Ended: "stopped"}, {Settle: drive.AsBefore, Ended: "quit"}},
	Files: []wirelog.File{{Name: "rigs/a.toml", Text: []byte("# ü \\ \x00\xff\r\n\n\tx\n")}, {Name: "empty", Text: nil}},
}

// Every kind of row, bytes that cannot be looked at, and a head read back as they were.
func TestARecordReadsBack(t *testing.T) {
	events := []drive.Event{
		{Kind: drive.Heard, Bytes: []byte("ok\r\n \x00\xff\x1b[31m\\")}, {}, {Kind: drive.Asked, Request: drive.Request{Kind: drive.Jog, Axis: 1, By: -0.1}},
		{Kind: drive.Asked, Request: drive.Request{Kind: drive.Go}}, {Kind: drive.Asked, Request: drive.Request{Kind: 250, Name: "x y"}},
		{Kind: drive.Slept, Duration: 2 * time.Second}, {Kind: drive.Gone},
	}
	r := wirelog.NewRecorder(&world{now: time.Now(), events: events})
	opened := r.Now()
	n, err := r.Write([]byte("$$\n?"))
	require.NoError(t, err)
	require.Equal(t, 3, n)
	for range events {
		r.Wait(time.Time{})
	}
	assert.Equal(t, 11*time.Microsecond, r.Now().Sub(opened), "each wait taken up to the next microsecond, none earlier than the world")
	var text bytes.Buffer
	require.NoError(t, r.Save(&text, head))
	assert.Contains(t, text.String(), "\n0 > $$\\n\n2 < ok\\r\\n \\x00\\xff\\x1b[31m\\\\\n3 .\n")
	got, err := wirelog.Read("x", &text)
	require.NoError(t, err)
	require.True(t, got.Whole())
	require.Equal(t, head, got.Head)
	p := wirelog.NewPlayback(got, opened)
	_, err = p.Write([]byte("$$\n"))
	require.NoError(t, err)
	for _, want := range events[:6] {
		e := p.Wait(opened)
		assert.Equal(t, want, e)
	}
	require.Equal(t, drive.Gone, p.Wait(opened).Kind)
	require.NoError(t, p.Done())
}

// A record that holds no more says so, and does not pass for a whole one.
func TestARecordThatIsFull(t *testing.T) {
	w := &world{now: time.Now()}
	r := wirelog.NewRecorder(w)
	for range 2 {
		w.events = append(w.events, drive.Event{Kind: drive.Heard, Bytes: bytes.Repeat([]byte("a"), wirelog.MostKept/2)})
		r.Wait(time.Time{})
	}
	require.True(t, r.Full())
	r.Over()
	w.events = append(w.events, drive.Event{})
	r.Wait(time.Time{})
	var text bytes.Buffer
	require.NoError(t, r.Save(&text, wirelog.Head{}))
	require.Less(t, text.Len(), wirelog.MostKept)
	require.True(t, strings.HasSuffix(text.String(), " = there was more than a record holds\n"))
}

const good = "seamrail-wire/1\nmade-by a board\nkind buffered\n\n0 > ?\n5 < ok\n9 =\n"

func TestWhatIsNoRecord(t *testing.T) {
	read := func(text string) error { _, err := wirelog.Read("x.wire", strings.NewReader(text)); return err }
	require.NoError(t, read(good))
	require.NoError(t, read(strings.ReplaceAll(good, "\n", "\r\n")))
	for text, want := range map[string]string{
		"":                                                     "x.wire:1: the record breaks off",
		"seamrail-wire/2\n":                                    `x.wire:1: a record of the wire begins with "seamrail-wire/1"`,
		strings.TrimSuffix(good, "9 =\n"):                      "x.wire:7: the record breaks off: its last row is no =",
		good + "9 .\n":                                         "x.wire:8: there is more after the end of the record",
		strings.Replace(good, "5 <", "-1 <", 1):                "x.wire:6: a row begins with its time in whole microseconds",
		strings.Replace(good, "9 =", "4 =", 1):                 "x.wire:7: at 4 us it is before the row above it, at 5",
		strings.Replace(good, "> ?", "> ", 1):                  "x.wire:5: no bytes went over the wire in this row",
		strings.Replace(good, "> ?", "> \\x4", 1):              "x.wire:5: a backslash is followed by",
		strings.Replace(good, "> ?", "> \\xzz", 1):             `x.wire:5: \xzz is no byte`,
		strings.Replace(good, "> ?", "* ?", 1):                 `x.wire:5: "*" is none of > - < . ? z ! =`,
		strings.Replace(good, "> ?", "? fly", 1):               `x.wire:5: there is no request "fly"`,
		strings.Replace(good, "> ?", "? jog {", 1):             "x.wire:5: what is asked for besides jog cannot be read",
		strings.Replace(good, "> ?", "z -3", 1):                `x.wire:5: "-3" is no time`,
		strings.Replace(good, "> ?", ". x", 1):                 "x.wire:5: nothing follows .",
		strings.Replace(good, "> ?", "", 1):                    "x.wire:5: after its time a row has one of",
		strings.Replace(good, "a board", "me", 1):              `x.wire:2: made-by is "a board" or`,
		strings.Replace(good, "kind", "brand", 1):              `x.wire:3: a head has no "brand"`,
		strings.Replace(good, "kind buffered", "file ../x", 1): `x.wire:3: the name "../x" of a file must be one below the folder of the record`,
		strings.Replace(good, "kind buffered", "|x", 1):        "x.wire:3: a line of a file comes before its name",
		good + strings.Repeat("x", 1<<20):                      "x.wire:8: bufio.Scanner: token too long",
	} {
		require.ErrorContains(t, read(text), want, "%.80q", text)
	}
}

// Whatever is read is a record that says the same when it is written again, and plays to an
// end whatever the host does.
func FuzzRead(f *testing.F) {
	f.Add(good)
	f.Add("seamrail-wire/1\nfile a\n|x\\x00\n\n0 ? go\n1 z 5\n2 ! gone\n3 - \n4 = why\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := wirelog.Read("x", strings.NewReader(text))
		if err != nil {
			return
		}
		opened := time.Unix(0, 0)
		p := wirelog.NewPlayback(r, opened)
		for range len(r.Rows) + 1 {
			_, _ = p.Write([]byte("?"))
			before := p.Now()
			until := before.Add(time.Second)
			if e := p.Wait(until); e.Kind == drive.Nothing {
				assert.False(t, p.Now().Before(until))
			}
			assert.False(t, p.Now().Before(before))
		}
		_ = p.Done()
	})
}
