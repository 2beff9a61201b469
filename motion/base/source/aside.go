package source

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// asideMark begins a line of a document that has been set aside, so that it means nothing
// and can be taken back: "#~ hold: at = "40 mm"". The word says for what it was set aside.
const asideMark = "#~ "

var asideLine = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^` + asideMark + `([a-z-]+): ?(.*)$`)
})

// IsAside tells whether a line has been set aside.
func IsAside(line string) bool { return asideLine().MatchString(strings.TrimRight(line, "\r\n")) }

// Aside returns the document with the values at some paths set aside under a word, line by
// line, where they stand. The error is a fault.List.
func Aside(file string, data []byte, word string, paths ...string) ([]byte, error) {
	for _, path := range paths {
		out, err := reshaped(file, data, path, "cannot be set aside", func(body []byte, root *node) []byte {
			if root.at(path) == nil {
				return nil
			}
			return laidOut(body).aside(word, path)
		}, func(was, now *node) bool { return sameBut(now, was, path) })
		if err != nil {
			return nil, err
		}
		data = out
	}
	return data, nil
}

func (l layout) aside(word, path string) []byte {
	out := l.data
	for i, p := range slices.Backward(l.parts) {
		if i > 0 && below(p.path, path) {
			out = markedLines(out, span{p.start, p.end}, word)
			continue
		}
		for _, k := range slices.Backward(p.keys) {
			if below(k.path, path) {
				out = markedLines(out, span{k.start, k.end}, word)
			}
		}
	}
	return out
}

// markedLines puts the mark before each line of a span that is not blank, and not set
// aside already.
func markedLines(data []byte, s span, word string) []byte {
	lines := strings.SplitAfter(string(data[s.from:s.to]), "\n")
	for i, line := range lines {
		if strings.TrimSpace(line) != "" && !IsAside(line) {
			lines[i] = asideMark + word + ": " + line
		}
	}
	return splice(data, s.from, s.to, strings.Join(lines, ""))
}

// Kept is a value that has been set aside.
type Kept struct {
	Word string
	Path string
	at   []int // offsets of its lines
}

// KeptUnder are the values that have been set aside in a table of the document.
func KeptUnder(data []byte, table string) []Kept {
	var out []Kept
	l := laidOut(bytes.TrimPrefix(data, []byte("\ufeff")))
	for _, p := range l.parts {
		for at := p.head; ; {
			run, next := l.run(at, p.end)
			if run == nil {
				break
			}
			out, at = append(out, run.kept(p.path)...), next
		}
	}
	return slices.DeleteFunc(out, func(k Kept) bool { return !below(k.Path, table) })
}

// asideRun is lines under one word that follow each other, blank lines between them or not.
type asideRun struct {
	word string
	at   []int
	text []string
}

// run is the next one behind a byte, and where it ends.
func (l layout) run(at, end int) (*asideRun, int) {
	var out *asideRun
	for line := l.lineAfter(at); line.from < end; line = l.lineAfter(line.to) {
		text := string(l.data[line.from:line.to])
		m := asideLine().FindStringSubmatch(text)
		switch {
		case m == nil && out == nil || strings.TrimSpace(text) == "":
		case m == nil || out != nil && m[1] != out.word:
			return out, lineBefore(l.data, line.from)
		default:
			if out == nil {
				out = &asideRun{word: m[1]}
			}
			out.at, out.text = append(out.at, line.from), append(out.text, m[2])
		}
	}
	return out, end
}

// kept are the values of a run that stands in a table.
func (r asideRun) kept(table string) []Kept {
	body := []byte(strings.Join(r.text, "\n"))
	if _, faults := parse("", "", body); len(faults) > 0 {
		return nil
	}
	var out []Kept
	add := func(path string, s span) {
		k := Kept{Word: r.word, Path: path}
		first := bytes.Count(body[:s.from], []byte("\n"))
		for i := range 1 + bytes.Count(body[s.from:s.to], []byte("\n")) {
			k.at = append(k.at, r.at[first+i])
		}
		if n := len(out); n > 0 && out[n-1].Path == path {
			out[n-1].at = append(out[n-1].at, k.at...)
			return
		}
		out = append(out, k)
	}
	for i, p := range laidOut(body).parts {
		if i > 0 { // an item of a list: all of them are one value
			add(strings.TrimSuffix(p.path, p.path[max(0, strings.LastIndexByte(p.path, '[')):]), span{p.start, p.end})
			continue
		}
		for _, k := range p.keys {
			add(strings.TrimPrefix(table+"."+k.path, "."), span{k.start, k.end})
		}
	}
	return out
}

// Back returns the document with values that were set aside taken back. What comes out
// need not be TOML: two values may stand at one path.
func Back(data []byte, kept ...Kept) []byte {
	mark := len(data) - len(bytes.TrimPrefix(data, []byte("\ufeff")))
	var at []int
	words := map[int]string{}
	for _, k := range kept {
		for _, a := range k.at {
			at, words[a] = append(at, a), k.Word
		}
	}
	slices.Sort(at)
	for _, a := range slices.Backward(slices.Compact(at)) {
		prefix := asideMark + words[a] + ":"
		to := mark + a + len(prefix)
		if to < len(data) && data[to] == ' ' {
			to++
		}
		data = splice(data, mark+a, to, "")
	}
	return data
}
