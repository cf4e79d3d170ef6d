import { Component, type ComponentChildren } from 'preact';

/** A fault of this page becomes a sentence instead of a blank screen. */
export class Mishap extends Component<{ children: ComponentChildren }, { message: string | null }> {
  override state = { message: null };

  static override getDerivedStateFromError(error: unknown) {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    if (this.state.message === null) return this.props.children;
    return (
      <main id="content" class="screen">
        <h1>This page broke</h1>
        <p>
          That is a fault of Layfair, not of your roof: {this.state.message}.{' '}
          <a href="/">All jobs</a>
        </p>
      </main>
    );
  }
}
