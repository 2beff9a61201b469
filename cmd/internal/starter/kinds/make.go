package kinds

import (
	"bytes"
	"embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
	"text/template"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
)

//go:embed shots/*.tmpl
var shots embed.FS

// pieces are the shot files of all kinds and what they share.
var pieces = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(shots, "shots/*.tmpl"))
})

// Answers are what was answered, by the names of the questions. What is left out is as
// the question has it.
type Answers map[string]string

// numbers are the answers in the units of their questions.
type numbers map[string]float64

// sets are values of the shot file by their paths.
type sets []set

type set struct{ path, text string }

// Questions are the five that the kind asks on a bench. What is kept where nothing is
// answered may follow from answers so far.
func (k Kind) Questions(b Bench, before Answers) []Question {
	out := k.asks(b)
	for i := range out {
		if k.suits != nil && out[i].Name == loopName {
			out[i].Default = k.suits(b, before)
		}
	}
	return out
}

// Check reads one answer, beside those before it, and returns it as it goes into the
// file. The error says what would fit.
func (k Kind) Check(b Bench, name, text string, before Answers) (string, error) {
	q, err := k.question(b, name, before)
	if err != nil {
		return "", err
	}
	text, n, err := q.answer(text)
	if err != nil {
		return "", err
	}
	there, given := before[opposite[name]]
	if !given {
		return text, nil
	}
	if _, m, err := q.answer(there); err == nil && m.Sub(n).Abs().Less(shortestWay) {
		return "", fmt.Errorf("%q must be at least %s from the other end, %s", text, mm(shortestWay.Float()), there)
	}
	return text, nil
}

// opposite are the ends of a way, which have the same range.
var opposite = map[string]string{"from": "to", "to": "from"}

// shortestWay, mm, is less than a macro lens glides; nothing that is drawn or timed needs
// a shorter one.
var shortestWay = exact.Int(1)

func (k Kind) question(b Bench, name string, before Answers) (Question, error) {
	all := k.Questions(b, before)
	names := make([]string, len(all))
	for i, q := range all {
		if names[i] = q.Name; q.Name == name {
			return q, nil
		}
	}
	return Question{}, fmt.Errorf("%s asks for no %s; it asks for %s", k.Name, name, strings.Join(names, ", "))
}

// Make writes the shot file. The rig is in the file of a name, as the shot sees it; own
// tells that it is written beside the shot. The error is of the first answer that is
// wrong, or says what the kind needs of a rig.
func (k Kind) Make(b Bench, a Answers, rigFile string, own bool) ([]byte, error) {
	if err := k.Suits(b); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	part := struct {
		Line, Rail, Table, Stand string
		Own, ByHand              bool
	}{k.Line, b.Rail.Name, b.Table, b.Stand.Name, own, !b.Rig.Controller.Kind.Driven()}
	if err := pieces().ExecuteTemplate(&out, k.Name+".tmpl", part); err != nil {
		return nil, err
	}
	all, err := k.values(b, a)
	if err != nil {
		return nil, err
	}
	text := out.Bytes()
	for _, s := range append(all, set{"rig.file", rigFile}) {
		if text, err = source.Set(k.ShotName(), text, s.path, s.text); err != nil {
			return nil, err
		}
	}
	return aligned(text), nil
}

// values are the answers and what follows from them.
func (k Kind) values(b Bench, a Answers) (out sets, err error) {
	for name := range a {
		if _, err := k.question(b, name, a); err != nil {
			return nil, err
		}
	}
	got, before := numbers{}, Answers{} // what is not answered, and what is so far
	for _, q := range k.Questions(b, a) {
		if _, given := a[q.Name]; !given {
			before[q.Name] = q.Default
		}
	}
	for _, q := range k.Questions(b, a) {
		text, given := a[q.Name]
		if !given {
			text = q.Default
		} else if text, err = k.Check(b, q.Name, text, before); err != nil {
			return nil, fmt.Errorf("%s: %w", q.Name, err)
		}
		before[q.Name] = text
		_, n, err := q.answer(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", q.Name, err)
		}
		got[q.Name] = n.Float()
		for _, key := range q.keys {
			out = append(out, set{key, text})
		}
	}
	return append(out, k.sets(b, got)...), nil
}

// mm writes a length as a file has it, to the tenth.
func mm(x float64) string { return number(x) + " mm" }

// number writes a number to the tenth.
func number(x float64) string { return strconv.FormatFloat(tenths(x), 'f', -1, 64) }

// tenths rounds to what a ruler on a bench shows at best.
func tenths(x float64) float64 { return math.Round(x*10) / 10 }

// aligned moves the words behind values under each other again, where a value has become
// longer or shorter.
func aligned(text []byte) []byte {
	lines := strings.Split(string(text), "\n")
	for from := 0; from < len(lines); {
		to := from
		for to < len(lines) && lines[to] != "" {
			to++
		}
		align(lines[from:to])
		from = to + 1
	}
	return []byte(strings.Join(lines, "\n"))
}

// align moves the words of a block that belong together: those behind values, and those
// that go on below them.
func align(block []string) {
	column := 0
	for _, l := range block {
		if value, _, ok := remark(l); ok && value != "" {
			column = max(column, len([]rune(value)))
		}
	}
	for i, l := range block {
		if value, words, ok := remark(l); ok {
			block[i] = value + strings.Repeat(" ", max(2, column-len([]rune(value))+2)) + words
		}
	}
}

// remark takes a line apart into a value and the words behind it; the value is "" where
// the words go on below.
func remark(line string) (value, words string, ok bool) {
	if strings.HasPrefix(line, "#") {
		return "", "", false
	}
	quoted := false
	i := strings.IndexFunc(line, func(r rune) bool {
		if r == '"' {
			quoted = !quoted
		}
		return r == '#' && !quoted
	})
	if i < 0 {
		return "", "", false
	}
	return strings.TrimRight(line[:i], " "), line[i:], true
}
