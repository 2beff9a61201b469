package takelog_test

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/takelog"
)

// disk is a file with so much room, which counts its syncs.
type disk struct {
	bytes.Buffer
	room, syncs int
	syncErr     error
}

var errFull = errors.New("no space left on device")

func (d *disk) Write(p []byte) (int, error) {
	n := min(len(p), d.room)
	d.room -= n
	d.Buffer.Write(p[:n])
	if n < len(p) {
		return n, errFull
	}
	return n, nil
}

func (d *disk) Sync() error { d.syncs++; return d.syncErr }

var noon = time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)

// day is a log of three takes: one good and kept, one that hit a switch, one
// after homing.
func day() []takelog.Record {
	at := func(sec int) time.Time { return noon.Add(time.Duration(sec) * time.Second) }
	return []takelog.Record{
		{Kind: takelog.Settled, Time: at(0)},
		{Kind: takelog.Begun, Time: at(1), Take: 1, Shot: "lantern.toml", Plan: "0123456789abcdef", Rig: "bench", Rounds: 3, Planned: 12},
		{Kind: takelog.Ended, Time: at(14), Take: 1, Executed: 12.0004, Outcome: "finished", Known: true, Worst: []takelog.Worst{{Axis: "rail", Value: 0.01, Unit: "mm"}}},
		{Kind: takelog.Keeper, Time: at(15), Take: 1, Keep: true},
		{Kind: takelog.Noted, Time: at(16), Take: 1, Note: "flame \"steady\"\nsecond line"},
		{Kind: takelog.Begun, Time: at(20), Take: 2, Plan: "0123456789abcdef"},
		{Kind: takelog.Ended, Time: at(22), Take: 2, Outcome: "alarm", Detail: "ALARM:1"},
		{Kind: takelog.Settled, Time: at(60)},
		{Kind: takelog.Begun, Time: at(61), Take: 3, Plan: "0123456789abcdef"},
		{Kind: takelog.Ended, Time: at(73), Take: 3, Outcome: "finished", Executed: 12, Known: true},
	}
}

func written(t require.TestingT, records []takelog.Record) *disk {
	d := &disk{room: 1 << 20}
	w := takelog.NewWriter(d, nil)
	for _, r := range records {
		require.NoError(t, w.Add(r))
	}
	require.Equal(t, len(records), d.syncs, "each record is synced as it happens")
	return d
}

func read(t require.TestingT, text []byte) takelog.Log {
	l, err := takelog.Read(bytes.NewReader(text))
	require.NoError(t, err)
	return l
}

func TestADayReadsBack(t *testing.T) {
	l := read(t, written(t, day()).Bytes())
	require.Len(t, l.Takes, 3)
	require.Zero(t, l.Torn)
	require.True(t, l.Known)
	require.Equal(t, day()[1], l.Takes[0].Begin)
	require.Equal(t, day()[2], l.Takes[0].End)
	require.True(t, l.Takes[0].Keep)
	require.Equal(t, []string{"flame \"steady\"\nsecond line"}, l.Takes[0].Notes)
	require.Equal(t, 13*time.Second, l.Takes[0].End.Time.Sub(l.Takes[0].Begin.Time))
	require.Equal(t, 4, l.Next())
	require.True(t, l.Has(2))
	require.False(t, l.Has(4))
	_, cut := l.LastCut()
	require.False(t, cut)
}

// Wherever the log is cut, it reads back what was whole, says which pass was
// cut, and position is known only after a settling or a good end, and not after
// half a line, which may have been about to tell that it is lost.
func TestCutAnywhere(t *testing.T) {
	whole := written(t, day()).Bytes()
	for n := range len(whole) + 1 {
		l := read(t, whole[:n])
		lines := bytes.Count(whole[:n], []byte("\n"))
		tail := whole[bytes.LastIndexByte(whole[:n], '\n')+1 : n]
		complete := day()[:lines]
		if len(tail) > 0 && bytes.HasSuffix(tail, []byte("}")) && whole[n] == '\n' {
			complete = day()[:lines+1] // only its line end is missing
			tail = nil
		}
		require.Equal(t, len(tail) > 0, l.Torn == 1, "cut at %d", n)
		begun, known, open := 0, false, 0
		for _, r := range complete {
			switch r.Kind {
			case takelog.Begun:
				begun, known, open = begun+1, false, r.Take
			case takelog.Ended:
				known, open = r.Known, 0
			case takelog.Settled:
				known = true
			}
		}
		require.Len(t, l.Takes, begun, "cut at %d", n)
		require.Equal(t, known && len(tail) == 0, l.Known, "cut at %d", n)
		take, cut := l.LastCut()
		require.Equal(t, open != 0, cut, "cut at %d", n)
		require.Equal(t, open, take.Number)
		if cut {
			require.Equal(t, takelog.Cut, take.End.Outcome)
			require.Zero(t, take.End.Time)
		}
	}
}

// A log that was cut goes on: the half line stays alone.
func TestGoesOnAfterACut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := written(t, day()).Bytes()
		n := rapid.IntRange(0, len(whole)).Draw(t, "cut")
		before := read(t, whole[:n])
		d := &disk{room: 1 << 20}
		d.Buffer.Write(whole[:n])
		w := takelog.NewWriter(d, whole[:n])
		require.NoError(t, w.Add(takelog.Record{Kind: takelog.Begun, Time: noon, Take: before.Next()}))
		after := read(t, d.Bytes())
		require.Len(t, after.Takes, len(before.Takes)+1)
		require.Equal(t, before.Torn, after.Torn)
		take, cut := after.LastCut()
		require.True(t, cut)
		require.Equal(t, before.Next(), take.Number)
	})
}

func TestFullDisk(t *testing.T) {
	whole := written(t, day()).Bytes()
	for _, room := range []int{0, 1, 100, len(whole) - 1} {
		d := &disk{room: room}
		w := takelog.NewWriter(d, nil)
		var err error
		for _, r := range day() {
			if err = w.Add(r); err != nil {
				break
			}
		}
		require.ErrorIs(t, err, errFull)
		size := d.Len()
		require.ErrorIs(t, w.Add(day()[0]), errFull, "the error stays")
		require.Equal(t, size, d.Len(), "and nothing more is written")
	}
}

func TestSyncFails(t *testing.T) {
	bad := errors.New("input/output error")
	w := takelog.NewWriter(&disk{room: 1000, syncErr: bad}, nil)
	require.ErrorIs(t, w.Add(day()[0]), bad)
}

func TestReaderFails(t *testing.T) {
	_, err := takelog.Read(iotest.ErrReader(io.ErrUnexpectedEOF))
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
}

// Lines that are JSON and no record, and ends of takes that never began, are
// counted as torn.
func TestStrangers(t *testing.T) {
	l := read(t, []byte(`{"record":"end","take":9}
null
{"record":"party"}
[1]

{"record":"begin","take":1}
{"record":"lost"}
`))
	require.Equal(t, 4, l.Torn)
	require.Len(t, l.Takes, 1)
	require.False(t, l.Known)
}

// A log from before passes told how sure their length is reads as ever, and what
// a pass tells now reads back.
func TestOldLogsRead(t *testing.T) {
	l := read(t, []byte(`{"record":"begin","time":"2026-03-14T12:00:01Z","take":1,"rounds":3,"planned_s":12}
{"record":"end","time":"2026-03-14T12:00:14Z","take":1,"executed_s":12.04,"outcome":"finished","position_known":true}
`))
	require.Zero(t, l.Torn)
	require.Equal(t, 12.04, l.Takes[0].End.Executed)
	require.Zero(t, l.Takes[0].End.Uncertainty)
	require.Zero(t, l.Takes[0].End.Foretold)

	records := day()
	records[2].Uncertainty, records[2].Foretold = 0.0028, 12.001
	l = read(t, written(t, records).Bytes())
	require.Equal(t, records[2], l.Takes[0].End)
}

func FuzzRead(f *testing.F) {
	f.Add(strings.Repeat(`{"record":"begin","take":1}`+"\n", 3))
	f.Add(`{"record":"end"`)
	f.Fuzz(func(t *testing.T, text string) {
		l, err := takelog.Read(strings.NewReader(text))
		require.NoError(t, err)
		require.LessOrEqual(t, len(l.Takes)+l.Torn, strings.Count(text, "\n")+1)
	})
}
