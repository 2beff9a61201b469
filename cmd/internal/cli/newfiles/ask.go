package newfiles

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/starter/kinds"
)

// offer shows the kinds where nothing was asked for and somebody is there to choose.
func (o *Options) offer() error {
	if !o.Streams.Asks || o.Shot.set.NFlag() > 0 || o.Shot.of.Name != "" || o.into {
		return nil
	}
	all := kinds.All()
	fmt.Fprintf(o.Streams.Out, "What shall the picture do?\n\n")
	for i, k := range all {
		fmt.Fprintf(o.Streams.Out, "  %d  %-15s %s\n", i+1, k.Name, k.Line)
	}
	fmt.Fprintf(o.Streams.Out, "\nA number or a name; Enter takes the built-in lantern, which has a bit of each.\n")
	for {
		text, err := o.line("> ")
		if err != nil {
			return err
		}
		if text == "" {
			return nil
		}
		if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= len(all) {
			o.Shot.of = all[n-1]
			return nil
		}
		if k, ok := kinds.Named(text); ok {
			o.Shot.of = k
			return nil
		}
		fmt.Fprintf(o.Streams.Out, "%q is none of them; a number from 1 to %d would do, or a name.\n", text, len(all))
	}
}

// ask asks the numbers of the kind, one after the other. Enter keeps what stands there;
// what would not do is told, and asked again.
func (o *Options) ask(b kinds.Bench) (kinds.Answers, error) {
	of, out := o.Shot.of, kinds.Answers{}
	fmt.Fprintf(o.Streams.Out, "%s: %s.\nEnter keeps what stands in brackets.\n\n", of.Name, of.Line)
	for i := range of.Questions(b, nil) {
		q := of.Questions(b, out)[i]
		fmt.Fprintln(o.Streams.Out, q.Ask)
		for {
			text, err := o.line(fmt.Sprintf("  %s (%s to %s) [%s] ", q.Name, q.Least, q.Most, q.Default))
			if err != nil {
				return nil, err
			}
			if text == "" {
				text = q.Default
			}
			if text, err = of.Check(b, q.Name, text, out); err == nil {
				out[q.Name] = text
				break
			}
			fmt.Fprintf(o.Streams.Out, "  %v\n", err)
		}
	}
	fmt.Fprintln(o.Streams.Out)
	return out, nil
}

// longestAnswer, in bytes, is beyond any number.
const longestAnswer = 200

// line prints a prompt and reads a line.
func (o *Options) line(prompt string) (string, error) {
	fmt.Fprint(o.Streams.Out, prompt)
	if o.answers == nil {
		o.answers = bufio.NewReaderSize(o.Streams.In, longestAnswer)
	}
	text, err := o.answers.ReadString('\n')
	switch {
	case errors.Is(err, io.EOF):
		fmt.Fprintln(o.Streams.Out)
		return "", exit.Misused("the answers ended; nothing was written")
	case err != nil:
		return "", fmt.Errorf("an answer could not be read: %w; nothing was written", err)
	}
	return strings.TrimSpace(text), nil
}
