package page

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestQuestionsHaveBounds(t *testing.T) {
	long := func(n int) string { return strings.Repeat("å", n) }
	b := browsed(t)
	for want, q := range map[string]struct {
		what  string
		asked m
	}{
		`\"edits\" has 101 items, and may have 100`:                           {"plan", m{"text": "", "edits": make([]m, mostItems+1)}},
		`\"path\" has 1001 characters, and may have 1000`:                     {"plan", m{"text": "", "edits": []m{{"path": long(1001), "value": ""}}}},
		`\"value\" has 65537 characters, and may have 65536`:                  {"preview", m{"text": "", "edits": []m{{"path": "a", "value": long(65537)}}}},
		`41 edits of a text of 512000 bytes are too much at once`:             {"plan", m{"text": strings.Repeat("#\n", 256000), "edits": make([]m, 41)}},
		`\"frames\" has 1001 items, and may have 1000`:                        {"preview", m{"text": "", "frames": make([]int, maxPicked+1)}},
		`\"flags\" has 101 items, and may have 100`:                           {"spin", m{"text": "", "flags": flagsOf(101)}},
		`\"flags\" has 2001 characters, and may have 2000`:                    {"fit", m{"text": "", "flags": m{"between": long(2001)}}},
		`\"group\" has 61 characters, and may have 60`:                        {"drive/open", m{"group": long(61)}},
		`\"note\" has 2001 characters, and may have 2000`:                     {"takes", m{"mark": m{"note": long(2001)}}},
		`\"claim\" has 2001 characters, and may have 2000`:                    {"drive/do", m{"claim": long(2001)}},
		`\"folder\" has 1001 characters, and may have 1000`:                   {"make", m{"folder": long(1001)}},
		`\"form\" is \"g-code\\n\", with blanks to spare`:                     {"export", m{"form": "g-code\n"}},
		`\"group\" has nothing in it that is to be seen`:                      {"takes/group", m{"group": " \t\n"}},
		`\"pass\" has nothing in it that is to be seen`:                       {"takes", m{"log": m{"pass": "\u200b \u2028"}}},
		`\"clip\" is \" A001\", with blanks to spare`:                         {"takes", m{"mark": m{"clip": " A001"}}},
		`\"name\" is \"from\\u202e\", with blanks to spare, line breaks or`:   {"drive/do", m{"name": "from\u202e"}},
		`\"from  to\", with blanks to spare, line breaks or what is not to b`: {"drive/do", m{"name": "from  to"}},
	} {
		status, body := b.asked(q.what, q.asked, nil)
		assert.Equal(t, http.StatusBadRequest, status, want)
		assert.Contains(t, body, want)
	}
}

func flagsOf(n int) m {
	out := m{}
	for i := range n {
		out[strings.Repeat("x", i)] = ""
	}
	return out
}

// What is at its bound is asked.
func TestQuestionsAtTheirBounds(t *testing.T) {
	edit := Edit{Path: strings.Repeat("p", 1000)}
	for _, q := range []any{
		&question{Text: strings.Repeat("x", maxBody), Edits: make([]Edit, 20)},
		&question{Edits: append(make([]Edit, mostItems-1), edit)},
		&question{Text: strings.Repeat("x", mostWork/40), Edits: make([]Edit, 40)},
		&openQuestion{Group: strings.Repeat("å", 60), Pass: "clean plate, no 2 (évening)"},
		&TakeMark{Clip: "A001.mov", Note: "two\nlines, and blanks "},
		&previewQuestion{Frames: make([]int64, maxPicked)},
		&rigEdit{Whole: ptr(strings.Repeat("x", maxBody))},
		&struct{}{}, &asking{Flags: map[string]string{"between": "4 s,5 s"}},
	} {
		assert.NoError(t, bounded(q))
	}
}
