// Command earshot listens to recordings of a mechanical leaf shutter being fired and
// says how long it stayed open, how far that is from the marked speed, whether it
// repeats, and whether it wants service. "earshot help" tells its commands.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
