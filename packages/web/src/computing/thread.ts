// A thread that does parts of long work; the page starts as many as the computer has processors.
import '@layshaft/pool/browser-worker';
