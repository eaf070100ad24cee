// Serve shows the packed page in a browser on this machine. It serves files and nothing else.
//
// The page is inside the binary when it was built with the tag packed, as ./build.sh does; otherwise it is read from a
// folder, web/dist unless -dir names another.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strconv"
	"syscall"
	"time"

	"openwork/web"
	"openwork/web/site"
)

// defaultPort is the one README names.
const defaultPort = 8017

// farewell is how long answers in flight get to finish after Ctrl-C.
const farewell = 2 * time.Second

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Getenv, os.Stdout); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run reads the flags, listens, prints the address and serves until the context ends.
func run(ctx context.Context, args []string, getenv func(string) string, out io.Writer) error {
	flags := flag.NewFlagSet("openwork", flag.ContinueOnError)
	port := flags.String("port", "",
		"port to listen on; 0 takes any free one (default: PORT in the environment, else 8017)")
	host := flags.String("host", "localhost", "name or address to listen on; the default is heard on this machine only")
	dir := flags.String("dir", "", "folder to serve in place of the page inside this program")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("%q is not understood; -h lists the flags", flags.Arg(0))
	}
	number, err := portNumber(*port, getenv("PORT"))
	if err != nil {
		return err
	}
	files, err := pageFiles(*dir)
	if err != nil {
		return err
	}
	page, err := site.New(files)
	if err != nil {
		return fmt.Errorf("%w; run ./build.sh, which packs the page and serves it", err)
	}
	listener, err := listen(*host, number)
	if err != nil {
		return err
	}
	bound := listener.Addr().(*net.TCPAddr).Port
	fmt.Fprintf(out, "Openwork is at http://%s (Ctrl-C stops it)\n", net.JoinHostPort(*host, strconv.Itoa(bound)))
	return serve(ctx, listener, page)
}

// portNumber takes the flag before the environment before the default.
func portNumber(flagged, environment string) (int, error) {
	text, from := flagged, "-port"
	if text == "" {
		text, from = environment, "PORT"
	}
	if text == "" {
		return defaultPort, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 65535 {
		return 0, fmt.Errorf("%s: %q is not a port; give a number from 0 to 65535, where 0 takes any free one", from,
			text)
	}
	return n, nil
}

// pageFiles returns the named folder, else the page inside this binary, else web/dist in the current folder.
func pageFiles(dir string) (fs.FS, error) {
	if dir == "" {
		if files, ok := web.Packed(); ok {
			return files, nil
		}
		dir = "web/dist"
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, fmt.Errorf("there is no folder %s here; run ./build.sh, which packs the page and serves it, or "+
			"name a folder with -dir", dir)
	}
	return os.DirFS(dir), nil
}

// listen opens the port, and says in a sentence when somebody else has it.
func listen(host string, port int) (net.Listener, error) {
	listener, err := net.Listen("tcp", net.JoinHostPort(host, strconv.Itoa(port)))
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("port %d is taken by another program. Stop that one, or choose another port: PORT=%d "+
			"./build.sh (PORT=0 takes any free one)",
			port, otherPort(port))
	case errors.Is(err, syscall.EACCES):
		return nil, fmt.Errorf("this user may not listen on port %d. Choose one from 1024 up: PORT=%d ./build.sh", port,
			defaultPort)
	case err != nil:
		return nil, fmt.Errorf("cannot listen on %s, port %d: %w", host, port, err)
	}
	return listener, nil
}

// otherPort is the port to propose in place of a taken one.
func otherPort(port int) int {
	if port >= 65535 {
		return defaultPort
	}
	return port + 1
}

// serve answers until the context ends, then lets what is in flight finish and returns nil.
func serve(ctx context.Context, listener net.Listener, handler http.Handler) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 5 * time.Second, IdleTimeout: 2 * time.Minute}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return fmt.Errorf("the server stopped: %w", err)
	case <-ctx.Done():
	}
	patience, cancel := context.WithTimeout(context.Background(), farewell)
	defer cancel()
	if err := server.Shutdown(patience); err != nil {
		_ = server.Close() // somebody is still reading; the person asked to stop
	}
	return nil
}
