/**
 * The line to a real fixture: serial ports of this machine, and nothing about what is said on them.
 *
 * <p>The only package that uses jSerialComm, and JNA for the one call that undoes what jSerialComm
 * does to the hang-up signal.
 */
package cardproof.link.serial;
