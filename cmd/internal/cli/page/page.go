package page

import (
	"fmt"
	"sync"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	web "seamrail/cmd/internal/page"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// Options is what the page command was asked.
type Options struct {
	Streams command.Streams
	Shot    string // file name; "" for the built-in shot
	Rig     string // file name that takes the place of the shot's rig
	Closed  bool   // do not open a browser

	Browse func(address string) error // opens the browser
}

// NewCmdPage returns the page command. A nil run means the real one.
func NewCmdPage(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s, Browse: browse}
	if run == nil {
		run = pageRun
	}
	c := &cobra.Command{
		Use:   "page [SHOT]",
		Short: "Design the loop by hand and eye, in a browser",
		Long: `Open a page in the browser of this computer on which a loop is designed by hand
and eye: drag the ends of a move and watch the loop go round, see what breaks a
limit and take what would fit, save, export, drive.

The page is served to this computer only, and needs no network. The shot file
stays the truth: the page reads it, writes it back with its comments, and says
when an editor has changed it. Files are read and written in the folder of the
shot and below it, and nowhere else. Without a SHOT it begins with the built-in
one, which is saved to this folder, or with what was saved of it here before.

The address that is printed has a key in it. Who knows it can move the rig: keep
it to yourself. Ctrl-C ends the page; a rig that moves then slows down and rests.`,
		Example: "  seamrail page lantern.toml\n  seamrail page lantern.toml --no-browser",
		Args:    command.AtMost("one shot file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.Shot = command.First(args)
			return run(o)
		},
	}
	c.Flags().StringVar(&o.Rig, "rig", "", "read the rig from `FILE`, not where the shot says")
	c.Flags().BoolVar(&o.Closed, "no-browser", false, "print the address and open no browser")
	_ = c.MarkFlagFilename("rig", "toml")
	return c
}

func pageRun(o *Options) error {
	r, err := o.rig()
	if err != nil {
		return err
	}
	if o.Shot == command.Stdout {
		return exit.Misused("a page is of a file, and not of standard input; name one")
	}
	if err := textfile.AShot(o.Shot); err != nil {
		return err
	}
	server, err := web.Open(web.Options{Shot: o.Shot, Rig: r, Version: command.Version()})
	if err != nil {
		return err
	}
	o.Streams.Release()
	var ended error
	end := sync.OnceFunc(func() { ended = server.Close() })
	told := false
	stop := func() { // told again while the rig slows down, it aborts
		if told {
			server.Abort()
			return
		}
		told = true
		deadman.Go(end)
	}
	release := host.Signals(stop, stop, sync.OnceFunc(stop))
	defer release()
	if err := o.tell(server.Address(), server.Opens()); err != nil {
		end()
		return err
	}
	if err := server.Serve(); err != nil {
		return err
	}
	end() // waits for the one that is under way
	return ended
}

// rig reads the rig that the flag names.
func (o *Options) rig() (*rig.Rig, error) {
	if o.Rig == "" {
		return nil, nil
	}
	data, err := textfile.Read(o.Rig)
	if err != nil {
		return nil, fmt.Errorf("the rig of the shot: %w", err)
	}
	r, _, err := rig.Decode(o.Rig, data)
	if err != nil {
		if other := textfile.WrongKind(o.Rig, data, filekind.Rig); other != nil {
			err = other
		}
	}
	return &r, err
}

// tell prints the address, and opens the page by one that is good once.
func (o *Options) tell(address, once string) error {
	if _, err := fmt.Fprintf(o.Streams.Out, "The page is at %s\nCtrl-C ends it.\n", address); err != nil {
		return err
	}
	if o.Closed {
		return nil
	}
	if err := o.Browse(once); err != nil {
		_, err = fmt.Fprintln(o.Streams.Out, "No browser could be opened from here; open that address in one.")
		return err
	}
	return nil
}
