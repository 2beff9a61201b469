package page

import (
	"fmt"
	"os/exec"
	"runtime"
	"runtime/debug"
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
	Shot    string // file name; "" for the first screen
	Rig     string // file name that takes the place of the shot's rig
	Closed  bool   // do not open a browser

	Browse func(address string) error // opens the browser
}

// NewCmdPage returns the page command. A nil run means the real one.
func NewCmdPage(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s, Browse: browse}
	c := command.OfFile(&cobra.Command{
		Use:   "page [SHOT]",
		Short: "Design the loop by hand and eye, in a browser",
		Long: `Open a page in the browser of this computer on which a loop is designed by hand
and eye: drag the ends of a move and watch the loop go round, see what breaks a
limit and take what would fit, save, export, drive.

Without a SHOT it opens on the shots of this folder, each with its loop playing, and
on kinds of shot to begin a new one with, which is written here.

A film of a take that is dropped on the page is looked through and laid beside the
plan, as "seamrail footage" does.

The page is served to this computer only, and needs no network. The shot file
stays the truth: the page reads it, writes it back with its comments, and says
when an editor has changed it. Files are read and written in the folder of the
shot and below it, and nowhere else. What is not saved is kept beside the shot, in
a hidden file, and offered again after a crash.

The address that is printed opens the page once; then another is printed, for
another browser. Who opens it can move the rig: keep it to yourself. Ctrl-C ends
the page; a rig that moves then slows down and rests.`,
		Example: "  seamrail page\n  seamrail page lantern.toml\n  seamrail page lantern.toml --no-browser",
	}, "one shot file", &o.Shot, o, run, pageRun)
	c.Flags().StringVar(&o.Rig, "rig", "", "read the rig from `FILE`, not where the shot says")
	c.Flags().BoolVar(&o.Closed, "no-browser", false, "print the address and open no browser")
	_ = c.MarkFlagFilename("rig", "toml")
	return c
}

// untidy is by how many hundredths memory may grow until it is tidied up. A page has little in
// use, which would otherwise be gone through with every other step of a drag; where it may grow by
// more, each step is in memory that no step was in before, which is slower than tidying up.
const untidy = 200

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
	server, err := web.Open(web.Options{Shot: o.Shot, Rig: r, Version: command.Version(), Printed: o.again})
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
	debug.SetGCPercent(untidy)
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
	return &r, textfile.Rather(err, o.Rig, data, filekind.Rig)
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

// again prints the address that is good after the last one was opened.
func (o *Options) again(address string) {
	_, _ = fmt.Fprintf(o.Streams.Out, "That address has been opened, and opens nothing any more. The next one, for another browser: %s\n", address)
}

// browse opens an address in the browser that the system prefers. It does not
// wait for it.
func browse(address string) error {
	var c *exec.Cmd
	switch runtime.GOOS {
	case "darwin":
		c = exec.Command("open", address)
	case "windows":
		c = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	default:
		c = exec.Command("xdg-open", address)
	}
	if err := c.Start(); err != nil {
		return err
	}
	deadman.Go(func() { _ = c.Wait() })
	return nil
}
