// A machine or catalogue file imported by name is its text; the bundler and the test runner both do this.
declare module '*.yaml' {
  const text: string;
  export default text;
}
