package measuring

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
)

// question is one thing that a person is asked.
type question struct {
	key     string // under which scripts answer it
	words   string
	picture string
	file    bool                    // the answer names a file, which is in no record of the wire
	usual   string                  // what Enter takes; "" = it has to be answered
	check   func(text string) error // nil = anything will do
	auto    func() string           // what a rig of software reads off itself; nil = nobody
}

// Asker asks questions: answers that were given beforehand come first, then what a rig of
// software knows, then lines that are typed. It owns a goroutine that reads those.
type Asker struct {
	Echo bool // what is typed is not seen where it is: it comes from a file or a pipe
	// Width is that of the screen, in characters; 0 is a plain page.
	Width int

	out     io.Writer
	given   map[string][]string
	typed   chan string // closed where there are no more
	stopped chan struct{}
	once    sync.Once
	said    []string // what was answered, as flags that answer it beforehand
	plain   bool     // pictures of plain ASCII
}

// longestAnswer, in bytes, is beyond any reading and any file name.
const longestAnswer = 4096

// NewAsker returns one. Given are answers as KEY=VALUE, taken one after the other where a
// key comes again.
func NewAsker(out io.Writer, in io.Reader, given []string, plainPictures bool) (*Asker, error) {
	a := &Asker{out: out, given: map[string][]string{}, typed: make(chan string), stopped: make(chan struct{}), plain: plainPictures}
	for _, text := range given {
		key, value, ok := strings.Cut(text, "=")
		if !ok {
			return nil, exit.Misused("--answer %q must be KEY=VALUE, such as \"division=1 mm\"", text)
		}
		key = strings.TrimSpace(key)
		a.given[key] = append(a.given[key], strings.TrimSpace(value))
	}
	deadman.Go(func() {
		defer close(a.typed)
		lines := bufio.NewScanner(in)
		lines.Buffer(nil, longestAnswer)
		for lines.Scan() {
			a.typed <- strings.TrimSpace(lines.Text())
		}
	})
	return a, nil
}

// stop ends a question that waits, and all after it.
func (a *Asker) stop() { a.once.Do(func() { close(a.stopped) }) }

// unused is an error for answers to questions that nobody asked.
func (a *Asker) unused() error {
	for key, left := range a.given {
		if len(left) > 0 {
			return exit.Misused("nothing was asked that --answer %s=%s answers", key, left[0])
		}
	}
	return nil
}

// left are the keys of answers that no question has taken yet, in words.
func (a *Asker) left() string {
	var keys []string
	for key, answers := range a.given {
		if len(answers) > 0 {
			keys = append(keys, key)
		}
	}
	if len(keys) == 0 {
		return ""
	}
	slices.Sort(keys)
	return "; given and not asked for yet: " + strings.Join(keys, ", ")
}

func (a *Asker) say(format string, args ...any) { fmt.Fprintf(a.out, format+"\n", args...) }

// fold says a text in lines that fit the screen.
func (a *Asker) fold(text string) { a.say("%s", console.Folded(text, a.width())) }

func (a *Asker) width() int { return cmp.Or(a.Width, reportWidth) }

// ask asks until the answer will do. One that was given beforehand and will not do is an
// error: nobody is there to ask again.
func (a *Asker) ask(q question) (string, error) {
	if q.picture != "" {
		a.say("\n%s", drawn(q.picture, a.plain))
	}
	a.fold(q.words)
	for {
		text, typed, err := a.answer(q)
		if err != nil {
			return "", err
		}
		if text == "" {
			text = q.usual
		}
		if err = a.checked(q, text); err == nil {
			if !q.file {
				a.said = append(a.said, "--answer="+q.key+"="+text)
			}
			return text, nil
		}
		if !typed {
			return "", exit.Misused("%s: %w", q.key, err)
		}
		a.fold("  " + err.Error())
	}
}

func (a *Asker) checked(q question, text string) error {
	switch {
	case text == "":
		return fmt.Errorf("an answer is needed")
	case q.check == nil:
		return nil
	}
	return q.check(text)
}

// answer is the next answer, and whether it was typed just now.
func (a *Asker) answer(q question) (text string, typed bool, err error) {
	prompt := "  " + q.key
	if q.usual != "" {
		prompt += " [" + q.usual + "]"
	}
	select {
	case <-a.stopped: // whatever is there to be read
		return "", false, exit.Told(nil)
	default:
	}
	if left := a.given[q.key]; len(left) > 0 {
		a.given[q.key] = left[1:]
		a.say("%s: %s", prompt, plain.Line(left[0]))
		return left[0], false, nil
	}
	if q.auto != nil {
		text = q.auto()
		a.say("%s: %s (the rig of software)", prompt, text)
		return text, false, nil
	}
	fmt.Fprintf(a.out, "%s: ", prompt)
	select {
	case text, typed = <-a.typed:
	case <-a.stopped:
		return "", false, exit.Told(nil)
	}
	switch {
	case typed && a.Echo:
		a.say("%s", plain.Line(text))
	case typed:
	case q.usual != "":
		a.say("%s", q.usual)
		text = q.usual
	default:
		a.say("")
		return "", false, exit.Misused("the answers ended before %q, and nothing more was written; --answer %s=... gives it beforehand%s", q.key, q.key, a.left())
	}
	return text, typed, nil
}

// yes asks something that is answered by y or n.
func (a *Asker) yes(q question) (bool, error) {
	q.check = func(text string) error {
		if t := strings.ToLower(text); t != "y" && t != "n" {
			return fmt.Errorf("y or n")
		}
		return nil
	}
	text, err := a.ask(q)
	return strings.EqualFold(text, "y"), err
}

// quantity asks for a quantity of a dimension within bounds, ends included.
func (a *Asker) quantity(q question, low, high float64, want ...unit.Dimension) (unit.Quantity, error) {
	var got unit.Quantity
	q.check = func(text string) (err error) {
		if got, err = unit.ParseAs(text, want...); err != nil {
			return err
		}
		if v := got.Float(); !(v >= low && v <= high) {
			return fmt.Errorf("%s must be from %s to %s", got, unit.Format(low, got.Dim), unit.Format(high, got.Dim))
		}
		return nil
	}
	_, err := a.ask(q)
	return got, err
}
