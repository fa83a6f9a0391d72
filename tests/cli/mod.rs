//! What the program does with arguments, files, standard input and output.

mod bad_input;
mod filing;
mod hearing;
mod output;
mod pages;
mod papers;
