package page

import (
	"math"
	"net"
	"net/http"
	"net/url"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// Who has no key, and sends half a question, does not hold a connection either.
func TestARefusedQuestionIsNotWaitedFor(t *testing.T) {
	l := hasty
	l.reader = patience
	listens, err := net.Listen("tcp4", net.JoinHostPort(loopback, "0"))
	require.NoError(t, err)
	s := l.server(newGuard(newKey(), listens.Addr(), l.around(http.HandlerFunc(asks)))) // as Open has it
	go func() { _ = s.Serve(listens) }()
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	c, err := net.Dial("tcp4", listens.Addr().String())
	require.NoError(t, err)
	require.NoError(t, c.SetDeadline(time.Now().Add(patience)))
	say(t, c, strings.Replace(question10, "Host: x", "Host: "+c.RemoteAddr().String(), 1)+`{"T`)
	status, body := toldOn(t, c)
	assert.Equal(t, http.StatusForbidden, status)
	assert.Contains(t, body, "opens nothing")
}

// together asks the same of a server several times at once, each of a shot of its own, and
// counts the answers by their status.
func together(s *Server, path string, of map[string]any) map[int]int {
	var all sync.WaitGroup
	var mu sync.Mutex
	got := map[int]int{}
	for shot, q := range of {
		all.Go(func() {
			r := request(s, http.MethodPost, path, q)
			r.Header.Set(shotHeader, url.PathEscape(shot))
			w := served(s, r)
			mu.Lock()
			defer mu.Unlock()
			got[w.Code]++
		})
	}
	all.Wait()
	return got
}

// Two shots lie over one rig: of two changes that were made from the same text of its file
// one is written, and the other is told that the file has changed.
func TestTwoShotsDoNotWriteOverEachOther(t *testing.T) {
	s := folderOpened(t, map[string]string{"a.toml": string(starter.Shot()), "b.toml": string(starter.Shot()), starter.RigName: string(starter.Rig())})
	for _, speed := range []string{"390 mm/s", "380 mm/s", "370 mm/s", "360 mm/s"} {
		data, err := os.ReadFile(starter.RigName)
		require.NoError(t, err)
		q := rigEdit{Text: string(starter.Shot()), File: starter.RigName, Revision: revision(data), Edits: []Edit{{Path: "axis.rail.speed", Value: &speed}}}
		other, slower := q, strings.Replace(speed, "0 mm", "1 mm", 1)
		other.Edits = []Edit{{Path: "axis.rail.speed", Value: &slower}}
		got := together(s, "/api/rig/edit", map[string]any{"a.toml": q, "b.toml": other})
		assert.Equal(t, map[int]int{http.StatusOK: 1, http.StatusConflict: 1}, got)
	}
}

// Of two windows that begin the same shot at once one has it, and its rig stays.
func TestTwoWindowsBeginOneShot(t *testing.T) {
	s := folderOpened(t, nil)
	for range 10 {
		q := asBegun("pass", "one")
		got := together(s, "/api/begin", map[string]any{"": q, ".": q})
		require.Equal(t, map[int]int{http.StatusOK: 1, http.StatusConflict: 1}, got)
		card := answeredBy[Card](t, s, "one.toml", "/api/card", struct{}{})
		require.Empty(t, card.Faults)
		for _, name := range []string{"one.toml", starter.RigName} {
			require.NoError(t, os.Remove(name))
		}
	}
}

// A question that makes no sense is told so in words, whoever answers it.
func TestWhatMakesNoSenseIsToldInWords(t *testing.T) {
	s := folderOpened(t, nil)
	w := posted(s, "/api/kind/picture", map[string]any{"kind": "pass", "controller": "none", "width": 64})
	assert.Equal(t, http.StatusBadRequest, w.Code)
	assert.Contains(t, w.Body.String(), rig.Buffered.String())
}

// Frames are drawn within the loop, whatever is asked for.
func TestNoFrameBeyondTheLoopIsDrawn(t *testing.T) {
	for _, q := range []previewQuestion{
		{From: 1, Every: math.MaxInt64}, {From: math.MinInt64, To: math.MinInt64, Every: math.MinInt64}, {From: math.MaxInt64, To: math.MaxInt64, Every: 7},
		{From: 9, Every: math.MaxInt64 - 1}, {Frames: []int64{math.MinInt64, math.MaxInt64}}, {From: 3, To: 2},
	} {
		frames, _ := q.pick(10)
		n := 0
		for k := range frames {
			if n++; k < 0 || k > 9 || n > 10 {
				t.Fatalf("%+v draws frame %d, as number %d", q, k, n)
			}
		}
	}
}

// Nothing that a question may say brings the program down, or holds it up.
func TestHostileEdits(t *testing.T) {
	b := browsed(t)
	paths := []string{
		"", ".", "..", "[", "]", "[1]", "[0]", `"`, `""`, `"a`, "axis", "axis.", "axis..keys", "axis.rail.", "axis.none.keys", "axis.rail.keys[0]", "axis.rail.move",
		"scene", "scene.", "scene.lamps", "scene.lamps[0].keys", "scene.lamps[-1].fade", "scene.lamps[99999999999999999999].keys", "scene.lamps.x.fade", "scene.lamps[1].keys[1]",
		"scene.holes[2]", "camera.pull.keys", "camera.pull", "cue[1].at", "cue[9]", `axis."rail".keys`, `axis."ra\u0000il"`, "clock.loop[1]", "take.rounds.x", "rig.axis.rail", "rig",
		"above.", "above.lamp[9]", "above.product", strings.Repeat("a.", 400), strings.Repeat("[1]", 300), "axis.table.keys", "\u2028",
	}
	values := []string{"", " ", "\x00", `"""`, "#", "\r\n", strings.Repeat("9", 400), "1e308 mm", "-1e308", "NaN mm", "keys", "1/0", "999999999999 frames"}
	huge := []float64{1e308, -1e308, 1e9, -1}
	for n, path := range paths {
		edits := []Edit{{Path: path}, {Do: doAdd, Path: path}, {Do: doRemove, Path: path}, {Do: doKind, Path: path}, {Do: "x", Path: path}}
		for i := range values {
			edits = append(edits, Edit{Path: path, Value: &values[i]})
			if strings.HasSuffix(path, ".move") {
				edits = append(edits, Edit{Do: doKind, Path: path, Value: &values[i]})
			}
		}
		for i := range huge {
			edits = append(edits, Edit{Path: path, Frame: &huge[i], Pos: &huge[i]}, Edit{Path: path, X: &huge[i], Y: &huge[i]}, Edit{Do: doAdd, Path: path, Frame: &huge[i], Pos: &huge[i]})
		}
		for i, e := range edits {
			if !many.Asked() && (i+n)%10 != 0 {
				continue
			}
			status, body := b.asked("plan", question{Text: b.text, Edits: []Edit{e}, Quick: true}, nil)
			require.Equal(t, http.StatusOK, status, "%+v: %s", e, body)
		}
	}
}

// A name that is a device on some system, or that hides a line, is no file's.
func TestNamesOfDevicesAreNone(t *testing.T) {
	for _, name := range []string{"com¹", "LPT²", "Com³.toml", "nul", "aux.x", "CONIN$", "clock$"} {
		_, err := newName("a.toml", name)
		assert.Error(t, err, name)
	}
	for _, name := range []string{"comet", "nullify", "lpt", "com¹x"} {
		_, err := newName("a.toml", name)
		assert.NoError(t, err, name)
	}
}

// A revision has no line feed in it: what comes behind it would be taken for the text.
func TestADraftKeepsItsText(t *testing.T) {
	b := browsed(t)
	status, body := b.asked("draft", m{"id": "abcdefgh", "text": "mine", "revision": "12\nnot mine"}, nil)
	assert.Equal(t, http.StatusBadRequest, status, body)
}
