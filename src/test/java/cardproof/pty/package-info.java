/**
 * Devices behind pseudo-terminals: what a driver opens as a serial port is served by a class that
 * takes and gives bytes. A pseudo-terminal has no rate and no control lines.
 */
package cardproof.pty;
