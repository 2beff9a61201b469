package music_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/music"
)

func list(t require.TestingT, text string) []string {
	markers, _, faults := music.ReadList("song.csv", []byte(text), film)
	require.Empty(t, faults, text)
	var out []string
	for _, m := range markers {
		out = append(out, m.Name+" "+m.At.String())
	}
	return out
}

func TestTables(t *testing.T) {
	want := []string{"a 1/2", "b, c 3/2"}
	for _, text := range []string{
		"a,0.5\n\"b, c\",1.5\n",
		"\ufeffname,time\na,0.5 s\n\"b, c\",1500 ms\n",
		"# song\nName;Time\r\na;1/2\r\nb, c;0:01.5\r\n",
		"time\tlength\tname\n0.5\t2\ta\n1.5\t\tb, c\n",
	} {
		assert.Equal(t, want, list(t, text), text)
	}
	assert.Equal(t, []string{"a 1001/1000", "b 1001/800", "c 1001/800", "d 3661/2"},
		list(t, "a,24 frames\nb,30 frames\nc,00:00:01:06\nd,30:30.5\n"), "frames and labels are those of 24000/1001")
}

func TestTablesThatAreWrong(t *testing.T) {
	for text, says := range map[string]string{
		"a,1\nb,0.5\n":                 `song.csv:2:3: marker "b" is at 0.5 s, before "a" of line 1 at 1 s; list markers in the order of time`,
		"a,1\na,2\n":                   `song.csv:2:1: marker "a" has the name of that in line 1`,
		"ä ö,1\n\"ä ö\",2":             `song.csv:2:1: marker "ä ö" has the name of that`,
		"äöü,x\n":                      `song.csv:1:5: marker "äöü" "x" must be a time`,
		"a,-1\n":                       "is 1 s before the beginning",
		"a,1:60\n":                     "must be a time",
		"a,1:-5\n":                     "must be a time",
		"a,00:00:00:24\n":              "they must be 00 to 23",
		"a,00:00:01;02\n":              "must be at 29.97 or 59.94",
		"a,3 mm\n":                     "must be a time",
		"a\n":                          "song.csv:1:1: row has 1 of the columns",
		",1\n":                         "song.csv:1:1: marker has no name",
		"time,title\n1,a\n":            "columns lack one with the head name",
		"a,1\n\"b,2\n":                 "CSV:",
		"":                             "has no markers with a name",
		"name,time\n":                  "has no markers with a name",
		"a\x00,1":                      "must be text in UTF-8",
		"a," + strings.Repeat("9", 99): "must be a time",
	} {
		_, _, faults := music.ReadList("song.csv", []byte(text), film)
		require.NotEmpty(t, faults, text)
		assert.Contains(t, faults.Error(), says, text)
	}
	_, _, faults := music.ReadList("song.csv", []byte(strings.Repeat("a\n", 500)), film)
	assert.Len(t, faults, 20, "as many as anyone reads")
	var many strings.Builder
	for i := range 10_001 {
		fmt.Fprintf(&many, "m%d,%d\n", i, i)
	}
	_, _, faults = music.ReadList("song.csv", []byte(many.String()), film)
	assert.Contains(t, faults.Error(), "song.csv:10001:1: markers must be at most 10000")
	_, _, faults = music.ReadList("song.csv", []byte(strings.Repeat("#", 1<<20+1)), film)
	assert.Contains(t, faults.Error(), "must be at most 1048576 bytes")
}

// Whatever names and times a spreadsheet writes are read back exactly.
func TestTablesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-zA-Zäß",;][a-z ,"]{0,8}[a-z,"]`), 1, 20, func(s string) string { return strings.Join(strings.Fields(s), " ") }).Draw(t, "names")
		times := rapid.SliceOfN(rapid.Int64Range(0, 1e9), len(names), len(names)).Draw(t, "microseconds")
		slices.Sort(times)
		var text strings.Builder
		w := csv.NewWriter(&text)
		w.UseCRLF = rapid.Bool().Draw(t, "crlf")
		_ = w.Write([]string{"name", "time"})
		var want []string
		for i, n := range names {
			at := exact.New(times[i], 1_000_000)
			_ = w.Write([]string{n, at.Decimal(6)})
			want = append(want, strings.Join(strings.Fields(n), " ")+" "+at.String())
		}
		w.Flush()
		assert.Equal(t, want, list(t, text.String()), text.String())
	})
}

// The objects of a timeline, by the fields of the published schema.
func moment(value, rate float64) map[string]any {
	return map[string]any{"OTIO_SCHEMA": "RationalTime.1", "value": value, "rate": rate}
}

func span(start, length map[string]any) map[string]any {
	return map[string]any{"OTIO_SCHEMA": "TimeRange.1", "start_time": start, "duration": length}
}

func mark(name string, at map[string]any) map[string]any {
	return map[string]any{"OTIO_SCHEMA": "Marker.2", "name": name, "color": "RED", "marked_range": span(at, moment(0, 24))}
}

func item(schema string, source map[string]any, markers []any, more ...any) map[string]any {
	out := map[string]any{"OTIO_SCHEMA": schema, "source_range": nil, "markers": markers, "effects": []any{}}
	if source != nil {
		out["source_range"] = source
	}
	if len(more) > 0 {
		out["children"] = more
	}
	return out
}

func timeline(stack map[string]any) string {
	text, _ := json.MarshalIndent(map[string]any{"OTIO_SCHEMA": "Timeline.1", "name": "song", "global_start_time": nil, "tracks": stack}, "", " ")
	return string(text)
}

// A marker is in the time of the item that holds it (OpenTimelineIO, "Time Ranges"): on
// the stack and a track that of the timeline, on a clip that of its media.
func TestTimelines(t *testing.T) {
	const ntsc = 30000. / 1001
	gap := item("Gap.1", span(moment(0, 25), moment(50, 25)), nil) // 2 s
	// It begins at 1:00:00 of its media and is used from a second later, for 3 s.
	clip := item("Clip.2", span(moment(86400+24, 24), moment(72, 24)), []any{mark("in the clip", moment(86400+36, 24))})
	bare := item("Clip.1", nil, []any{mark("in its media", moment(10, 10))})
	bare["media_reference"] = map[string]any{"OTIO_SCHEMA": "ExternalReference.1", "available_range": span(moment(5, 10), moment(40, 10))}
	transition := item("Transition.1", nil, nil)
	nest := item("Stack.1", span(moment(24, 24), moment(48, 24)), []any{mark("in the nest", moment(36, 24))})
	track := item("Track.1", nil, []any{mark("on the track", moment(45, ntsc))}, gap, clip, transition, nest, bare)
	text := timeline(item("Stack.1", nil, []any{mark("on the stack", moment(12.5, 25)), mark("", moment(1, 24)), mark("  two\t words ", moment(0, 1))}, track))
	markers, told, faults := music.ReadList("cut.otio", []byte(text), film)
	require.Empty(t, faults)
	got := map[string]string{}
	for _, m := range markers {
		got[m.Name] = m.At.String()
	}
	assert.Equal(t, map[string]string{
		"on the stack": "1/2", "two words": "0",
		"on the track": "3003/2000", // 45 frames of exactly 30000/1001
		"in the clip":  "5/2",       // 2 s of gap, and half a second into what is used of it
		"in the nest":  "11/2",      // after 5 s
		"in its media": "15/2",      // after 7 s, half a second in
	}, got)
	assert.Equal(t, "1 of its markers have no name and were left out", told[0])
	assert.Regexp(t, `^times counted at .*\b25\b.* frames/s were converted exactly to the timeline's 23.976 \(24000/1001\)$`, told[1])
	assert.Len(t, told, 2, "one line for all rates")
	assert.Contains(t, strings.Join(told, "\n"), "29.97 (30000/1001)")
}

func TestTimelinesThatAreWrong(t *testing.T) {
	warped := item("Clip.2", span(moment(0, 24), moment(24, 24)), []any{mark("a", moment(1, 24))})
	warped["effects"] = []any{map[string]any{"OTIO_SCHEMA": "LinearTimeWarp.1", "time_scalar": 2}}
	endless := item("Clip.2", nil, nil)
	for text, says := range map[string]string{
		`{`:                            "cut.otio:1:2: JSON: ends before it is complete",
		"{\n \"a\": }":                 "cut.otio:2:7: JSON:",
		`{} {}`:                        "something follows the document",
		`{"OTIO_SCHEMA":"Timeline.1"}`: "must be a timeline, a stack, a track or a clip",
		`{"OTIO_SCHEMA":"SerializableCollection.1"}`:                                     "a collection of several holds more than one time",
		timeline(item("Stack.1", nil, nil)):                                              "has no markers with a name",
		timeline(item("Stack.1", nil, []any{mark("a", nil)})):                            "rate must be a number of frames a second",
		timeline(item("Stack.1", nil, []any{mark("a", moment(1, 0))})):                   "must be above 0",
		timeline(item("Stack.1", nil, []any{mark("a", moment(1e10, 24))})):               "must be a number of frames within 1000000000",
		timeline(item("Stack.1", nil, []any{mark("a", moment(-24, 24))})):                "marker \"a\" is 1 s before the beginning",
		timeline(item("Stack.1", nil, nil, item("Track.1", nil, nil, warped))):           "stands on a clip whose speed is changed",
		timeline(item("Stack.1", nil, nil, item("Track.1", nil, nil, endless, endless))): "comes after one without a length",
		timeline(item("Stack.1", nil, nil, item("Robot.1", nil, nil))):                   "is nothing that stands in a track",
		strings.Repeat(`{"a":`, 200):                                                     "nested more than 100 deep",
	} {
		_, _, faults := music.ReadList("cut.otio", []byte(text), film)
		require.NotEmpty(t, faults, text)
		assert.Contains(t, faults.Error(), says, text)
	}
	// Where it stands is told: the marker's own line.
	text := "{\"OTIO_SCHEMA\":\"Track.1\", \"markers\":[\n\n  {\"OTIO_SCHEMA\":\"Marker.1\",\"name\":\"a\"}]}"
	_, _, faults := music.ReadList("cut.otio", []byte(text), film)
	assert.Contains(t, faults.Error(), "cut.otio:3:3: marker \"a\" has no marked_range")
}

// Whole frames at any rate of the trade come out exactly, though the file has floats.
func TestRatesOfTimelinesAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.SampledFrom([]exact.Rat{exact.Int(24), exact.Int(25), exact.Int(30), film, exact.New(30000, 1001), exact.New(60000, 1001), exact.New(120000, 1001), exact.Int(1000)}).Draw(t, "rate")
		n := rapid.Int64Range(0, 1e7).Draw(t, "frame")
		markers, _, faults := music.ReadList("cut.otio", []byte(timeline(item("Stack.1", nil, []any{mark("a", moment(float64(n), rate.Float()))}))), film)
		require.Empty(t, faults)
		assert.True(t, markers[0].At.Equal(exact.Int(n).Quo(rate)), markers[0].At.String())
	})
}

// A name that is there twice is a fault only where it is meant.
func TestAMarkerThatIsThereTwice(t *testing.T) {
	text := timeline(item("Stack.1", nil, []any{mark("a", moment(1, 24)), mark("a", moment(2, 24)), mark("b", moment(3, 24))}))
	m, report := read("markers = \"song.csv\"", text)
	require.Empty(t, report.Faults)
	_, wrong := named(m, "marker b")
	assert.Empty(t, wrong)
	_, wrong = named(m, "marker a")
	assert.Contains(t, wrong, "is in song.csv more than once, first in lines ")
}

func FuzzReadList(f *testing.F) {
	f.Add([]byte("name,time\na,0.5\n\"b, c\",1:30.25\n"))
	f.Add([]byte("a\t00:00:01:12\n# b\nc\t12 frames\n"))
	f.Add([]byte(timeline(item("Stack.1", nil, []any{mark("a", moment(12.5, 25))}, item("Track.1", nil, nil, item("Gap.1", span(moment(0, 25), moment(50, 25)), nil))))))
	f.Fuzz(func(t *testing.T, data []byte) {
		markers, _, faults := music.ReadList("song", data, film)
		require.True(t, len(faults) > 0 || len(markers) > 0, "it says what is wrong, or has something")
		require.LessOrEqual(t, len(markers), 10_000)
		for _, m := range markers {
			require.NotEmpty(t, m.Name)
			require.GreaterOrEqual(t, m.At.Sign(), 0)
		}
		_ = faults.Error()
	})
}
