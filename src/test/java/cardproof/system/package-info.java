/**
 * The whole program in a process of its own, on a simulated fixture in another one, with a serial
 * line between them: what a user would see and do, in real time.
 */
package cardproof.system;
