/** How things are said: positions in files, problems, nearest names, times. */
package cardproof.text;
