/** Where things stand in a user's files, what is wrong there, and the nearest known name. */
package cardproof.text;
